namespace PupilBridge.Safekeeping.Backups;

/// <summary>What kind of trouble there is with a backup.</summary>
public enum BackupTrouble
{
    /// <summary>It cannot be done as asked.</summary>
    Refused = 0,

    /// <summary>What was named is not there.</summary>
    Missing = 1,

    /// <summary>Something is missing from the backup, or was altered or cut.</summary>
    Damaged = 2,

    /// <summary>The pass phrase or key does not fit.</summary>
    WrongKey = 3,

    /// <summary>Another backup is being made there, or the folder is in use.</summary>
    InUse = 4,

    /// <summary>Files cannot be read or written.</summary>
    Storage = 5,
}

/// <summary>A backup cannot be made, checked or restored.</summary>
public sealed class BackupException : Exception
{
    /// <inheritdoc/>
    public BackupException() { }

    /// <inheritdoc/>
    public BackupException(string message)
        : base(message) { }

    /// <inheritdoc/>
    public BackupException(string message, Exception innerException)
        : base(message, innerException) { }

    /// <summary>A trouble with all that a person needs to know.</summary>
    /// <param name="trouble">Its kind.</param>
    /// <param name="what">What happened, to which file.</param>
    /// <param name="next">What to do.</param>
    /// <param name="cause">What was caught.</param>
    public BackupException(BackupTrouble trouble, string what, string next, Exception? cause = null)
        : base(what, cause)
    {
        Trouble = trouble;
        Next = next;
    }

    /// <summary>Its kind.</summary>
    public BackupTrouble Trouble { get; }

    /// <summary>What to do.</summary>
    public string Next { get; } = "";
}
