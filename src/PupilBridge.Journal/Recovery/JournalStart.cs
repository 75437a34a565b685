namespace PupilBridge.Journal;

/// <summary>What a writer found when it opened the journal.</summary>
public sealed record JournalStart
{
    /// <summary>Whether there was no journal yet.</summary>
    public required bool IsFirst { get; init; }

    /// <summary>Whether the last run stopped cleanly: its last record is a clean-stop mark. True for a first start.</summary>
    public required bool LastStopWasClean { get; init; }

    /// <summary>Whether the machine has not been restarted since the last run; false when that cannot be told.</summary>
    public required bool SameBoot { get; init; }

    /// <summary>
    /// Whether files that were not synced may be lost or half old: the last run did not stop cleanly and the machine was
    /// restarted since. The exam log is then rebuilt.
    /// </summary>
    public bool PowerMayHaveFailed => !LastStopWasClean && !SameBoot;

    /// <summary>The position up to which earlier runs left the journal.</summary>
    public required JournalPosition Recovered { get; init; }

    /// <summary>What was found on the way: tails set aside, damage. Each is also a notice in the journal.</summary>
    public required IReadOnlyList<JournalProblem> Problems { get; init; }
}
