namespace PupilBridge.Journal;

/// <summary>Why nothing can be recorded at present.</summary>
/// <param name="IsDiskFull">Whether the disk, or a quota, is full.</param>
/// <param name="Message">What happened, on which file, and what to do, for a person.</param>
/// <param name="Cause">The failure beneath.</param>
public sealed record JournalTrouble(bool IsDiskFull, string Message, Exception Cause)
{
    internal static JournalTrouble From(Exception cause, JournalFolder folder)
    {
        bool full = cause is DiskFullException;
        string what = full
            ? $"The disk that holds {folder.DataFolder} is full, so nothing can be recorded. Free some space there"
            : $"Nothing can be recorded in {folder.DataFolder}: {cause.Message} Check that disk";
        return new JournalTrouble(
            full,
            $"{what}; recording goes on by itself then. Nothing that was shown as recorded is lost.",
            cause
        );
    }
}

/// <summary>The outcome of a commit.</summary>
/// <param name="Durable">The position that is durable now.</param>
/// <param name="Trouble">Null when all that was appended is durable; else why none of it is known to be.</param>
public readonly record struct JournalCommit(JournalPosition Durable, JournalTrouble? Trouble)
{
    /// <summary>Whether all that was appended is durable.</summary>
    public bool IsDurable => Trouble is null;
}
