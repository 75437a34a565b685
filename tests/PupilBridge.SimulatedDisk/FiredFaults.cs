namespace PupilBridge.SimulatedDisk;

/// <summary>What can go wrong with a <see cref="FaultyDisk"/>.</summary>
public enum DiskFault
{
    /// <summary>A write failed before anything was written.</summary>
    WriteFailed,

    /// <summary>A write failed after some of its bytes, or all of them, were written.</summary>
    ShortWrite,

    /// <summary>A sync failed, and any of what waited for it is lost for good.</summary>
    SyncFailed,

    /// <summary>Opening or making a file failed.</summary>
    OpenFailed,

    /// <summary>Renaming failed.</summary>
    RenameFailed,

    /// <summary>Deleting failed.</summary>
    DeleteFailed,

    /// <summary>Cutting a file to a length failed.</summary>
    CutFailed,

    /// <summary>Syncing the names in a folder failed.</summary>
    FolderSyncFailed,

    /// <summary>A write found no room.</summary>
    DiskFull,

    /// <summary>A sector that was not synced was lost with the power.</summary>
    SectorLost,

    /// <summary>A sector that was not synced was torn in its middle as the power failed.</summary>
    SectorTorn,

    /// <summary>A sector that was not synced survived the power's failure, an earlier one of the same file did not.</summary>
    SectorsReordered,

    /// <summary>Names that were not synced were lost with the power.</summary>
    NamesLost,

    /// <summary>A byte of old data changed by itself.</summary>
    Rot,

    /// <summary>The process died in the middle of a write.</summary>
    DeathInWrite,

    /// <summary>The process died in the middle of a sync.</summary>
    DeathInSync,

    /// <summary>The process died in the middle of another operation.</summary>
    DeathBesideWrite,
}

/// <summary>How often each fault of a disk really happened: one that never did proves nothing.</summary>
public sealed class FiredFaults
{
    private readonly long[] _counts = new long[Enum.GetValues<DiskFault>().Length];

    /// <summary>How often one happened.</summary>
    public long this[DiskFault fault] => _counts[(int)fault];

    internal void Count(DiskFault fault, int times = 1) => _counts[(int)fault] += times;
}

/// <summary>The process is dead. Nothing catches this but the simulation: it unwinds whatever ran.</summary>
public sealed class ProcessDiedException() : Exception("The simulated process died.");
