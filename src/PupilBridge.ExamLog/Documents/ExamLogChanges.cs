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

    /// <summary>Signed versions whose way to other systems is new or different, each at most once.</summary>
    public IReadOnlyCollection<StoredOutboxItem> Outbox { get; init; } = [];

    /// <summary>
    /// What the one who applies the journal must remember to go on from here exactly as if it had never stopped, as opaque bytes. It is
    /// kept beside the position and is no part of the content.
    /// </summary>
    public ReadOnlyMemory<byte> Carry { get; init; }
}
