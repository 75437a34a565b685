namespace PupilBridge.ExamLog;

/// <summary>
/// What a stretch of the journal changed in the exam log: whole documents that take the place of those with the same id.
/// Nothing is ever deleted; what is no longer valid is kept with another status.
/// </summary>
public sealed record ExamLogChanges
{
    /// <summary>No change at all, for entries that move the position and nothing else.</summary>
    public static ExamLogChanges None { get; } = new();

    /// <summary>Exams that are new or different, each at most once.</summary>
    public IReadOnlyCollection<StoredExam> Exams { get; init; } = [];

    /// <summary>Patients that are new or different, each at most once.</summary>
    public IReadOnlyCollection<StoredPatient> Patients { get; init; } = [];

    /// <summary>Instruments that are new or different, each at most once.</summary>
    public IReadOnlyCollection<StoredInstrument> Instruments { get; init; } = [];

    /// <summary>Lines of look-up lists that are new or different, each at most once.</summary>
    public IReadOnlyCollection<StoredLookUp> LookUps { get; init; } = [];

    /// <summary>
    /// The journal sequence from which the entries must be read again at the next start to have the unfinished exams complete
    /// in memory; 0 if unknown, then reading starts with the first entry.
    /// </summary>
    public long ReplayFrom { get; init; }
}
