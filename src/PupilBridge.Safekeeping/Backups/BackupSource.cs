using PupilBridge.Journal;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>What is backed up, and by whom.</summary>
public sealed record BackupSource
{
    /// <summary>The data folder with its journal.</summary>
    public required JournalFolder Folder { get; init; }

    /// <summary>The disk that it lies on.</summary>
    public IJournalDisk Disk { get; init; } = RealDisk.Instance;

    /// <summary>The head that the running service tells, asked before anything is read; null where none runs.</summary>
    public JournalPosition? RunningHead { get; init; }

    /// <summary>The program and its version.</summary>
    public required string Program { get; init; }

    /// <summary>The clock.</summary>
    public TimeProvider Time { get; init; } = TimeProvider.System;
}

/// <summary>A backup that was made.</summary>
/// <param name="Catalogue">What it consists of.</param>
/// <param name="NewPieces">How many of its pieces are new; the others lay there already.</param>
/// <param name="NewBytes">How many bytes were written for them.</param>
/// <param name="WentOn">Whether it used what an interrupted backup had written.</param>
/// <param name="WasOpened">Whether the new pieces were opened again and read; a recipient's seal can only be compared byte for byte.</param>
public sealed record BackupMade(Catalogue Catalogue, int NewPieces, long NewBytes, bool WentOn, bool WasOpened);
