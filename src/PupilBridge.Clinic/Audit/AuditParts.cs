using PupilBridge.Journal;

namespace PupilBridge.Clinic.Audit;

/// <summary>What an <see cref="AuditLog"/> is made of.</summary>
public sealed record AuditParts
{
    /// <summary>The data folder; the stream lies in <c>audit</c> there.</summary>
    public required string DataFolder { get; init; }

    /// <summary>The clock.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>The program's version, for the files' headers.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>The disk.</summary>
    public IJournalDisk Disk { get; init; } = RealDisk.Instance;

    /// <summary>Told what whoever runs the service should know: that notes cannot be recorded, and that they can be again.</summary>
    public Action<string> Remark { get; init; } = _ => { };

    /// <summary>Bytes written ahead of the notes; a command that makes one note writes none.</summary>
    public int PreallocateBytes { get; init; } = 64 << 10;

    /// <summary>The stream's own folder, with a chain and a lock of its own.</summary>
    public JournalFolder Folder => new(Path.Combine(DataFolder, "audit"));
}
