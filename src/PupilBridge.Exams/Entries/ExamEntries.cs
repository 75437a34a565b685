using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries;

/// <summary>An examiner opened an exam; its name is this entry's place in the journal.</summary>
public sealed record ExamOpened : PersonEntry
{
    /// <summary>The instrument that it is done with.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>Whose exam it is; null if nobody said yet.</summary>
    public required PatientId? Patient { get; init; }
}

/// <summary>An exam that had no patient got one.</summary>
public sealed record ExamAttached : ExamEntry
{
    /// <summary>Whose exam it is.</summary>
    public required PatientId Patient { get; init; }

    /// <summary>Why, if there is something to say: free text, protected. Null once it has been erased.</summary>
    public required string? Reason { get; init; }
}

/// <summary>An exam goes to another patient than it was attached to.</summary>
public sealed record ExamMoved : ExamEntry
{
    /// <summary>Whose exam it is from now on.</summary>
    public required PatientId Patient { get; init; }

    /// <summary>Why: free text, protected. Null once it has been erased.</summary>
    public required string? Reason { get; init; }
}

/// <summary>
/// An exam holds two sittings: what the journal holds of it from one place on becomes a new exam without a patient,
/// named by this entry's place.
/// </summary>
public sealed record ExamSplit : ExamEntry
{
    /// <summary>The first entry of the old exam that belongs to the new one.</summary>
    public required JournalSequence From { get; init; }

    /// <summary>Why: free text, protected. Null once it has been erased.</summary>
    public required string? Reason { get; init; }
}

/// <summary>A free remark on an exam.</summary>
public sealed record NoteEntered : ExamEntry
{
    /// <summary>The remark: free text, protected. Null once it has been erased.</summary>
    public required string? Text { get; init; }
}

/// <summary>An earlier entry of a person on this exam is taken back; it stays in the journal and no longer counts.</summary>
public sealed record EntryWithdrawn : ExamEntry
{
    /// <summary>The entry taken back.</summary>
    public required EntryId Withdrawn { get; init; }

    /// <summary>Why, if there is something to say: free text, protected. Null once it has been erased.</summary>
    public required string? Reason { get; init; }
}

/// <summary>The examiner saw what is missing and accepted that it stays not examined.</summary>
public sealed record NotExaminedAccepted : ExamEntry
{
    /// <summary>The steps that were named as missing.</summary>
    public required ValueList<ExamStep> Steps { get; init; }
}

/// <summary>The examiner is done; the exam awaits review and takes no more events.</summary>
public sealed record ExamMadeReady : ExamEntry;

/// <summary>The exam shall not be used; it stays in the log.</summary>
public sealed record ExamSetAside : ExamEntry
{
    /// <summary>Why: free text, protected. Null once it has been erased.</summary>
    public required string? Reason { get; init; }
}
