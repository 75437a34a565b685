using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>The state of one eye as entered; the latest that was not taken back holds.</summary>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When.</param>
/// <param name="Eye">Which eye.</param>
/// <param name="Conditions">What holds of it.</param>
/// <param name="WithdrawnBy">The entry that took it back; null as long as it counts.</param>
public sealed record EyeStatusRecord(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    Eye Eye,
    EyeConditions Conditions,
    EntryId? WithdrawnBy
);

/// <summary>A free remark.</summary>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who entered it.</param>
/// <param name="At">When.</param>
/// <param name="Text">The remark; null once it has been erased.</param>
/// <param name="WithdrawnBy">The entry that took it back; null as long as it counts.</param>
public sealed record NoteRecord(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    string? Text,
    EntryId? WithdrawnBy
);

/// <summary>Steps that someone accepted as not examined.</summary>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who accepted it.</param>
/// <param name="At">When.</param>
/// <param name="Steps">The steps.</param>
/// <param name="WithdrawnBy">The entry that took it back; null as long as it counts.</param>
public sealed record NotExaminedRecord(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    ValueList<ExamStep> Steps,
    EntryId? WithdrawnBy
);

/// <summary>What a person did to the exam as a whole.</summary>
[System.Diagnostics.CodeAnalysis.SuppressMessage(
    "Naming",
    "CA1720",
    Justification = "Signed is the trade's word for it, and no number is near."
)]
public enum CourseKind
{
    /// <summary>It was opened by a person.</summary>
    Opened = 1,

    /// <summary>It was attached to a patient.</summary>
    Attached = 2,

    /// <summary>It was moved to another patient.</summary>
    Moved = 3,

    /// <summary>A part of it became an exam of its own.</summary>
    Split = 4,

    /// <summary>It is the part that was split off another one.</summary>
    SplitOff = 5,

    /// <summary>It was made ready for review.</summary>
    MadeReady = 6,

    /// <summary>It was set aside.</summary>
    SetAside = 7,

    /// <summary>Making it ready, setting it aside, attaching it or beginning to amend it was taken back.</summary>
    TakenBack = 8,

    /// <summary>Its record was signed.</summary>
    Signed = 9,

    /// <summary>An amendment of its signed record was begun.</summary>
    AmendmentBegun = 10,
}

/// <summary>One step in the course of an exam.</summary>
/// <param name="Kind">What was done.</param>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who did it.</param>
/// <param name="At">When.</param>
/// <param name="Patient">The patient it concerns, if any.</param>
/// <param name="OtherExam">The other exam it concerns, if any.</param>
/// <param name="Reason">The reason given, if any.</param>
public sealed record CourseRecord(
    CourseKind Kind,
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    PatientId? Patient,
    ExamId? OtherExam,
    string? Reason
);
