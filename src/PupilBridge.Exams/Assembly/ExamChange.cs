using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Lanes;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly;

/// <summary>What an entry changed. Every entry gives at least one change, so that none is ever silently dropped.</summary>
/// <param name="Sequence">The entry.</param>
public abstract record ExamChange(JournalSequence Sequence);

/// <summary>An exam is new or different; the caller stores it.</summary>
/// <param name="Sequence">The entry.</param>
/// <param name="Exam">The exam as it is now.</param>
/// <param name="IsNew">Whether it was opened by this entry.</param>
/// <param name="IsOver">Whether it takes no more events and has left the book.</param>
public sealed record ExamChanged(JournalSequence Sequence, Exam Exam, bool IsNew, bool IsOver) : ExamChange(Sequence);

/// <summary>A bench run is new or different; the caller stores it. It is no exam of a patient and stands in no list of exams.</summary>
/// <param name="Sequence">The entry.</param>
/// <param name="Run">The run as it is now; <see cref="Exam.Bench"/> is set.</param>
/// <param name="IsNew">Whether it was begun by this entry.</param>
/// <param name="IsOver">Whether it takes no more events.</param>
public sealed record BenchRunChanged(JournalSequence Sequence, Exam Run, bool IsNew, bool IsOver)
    : ExamChange(Sequence);

/// <summary>The state of an instrument is different.</summary>
/// <param name="Sequence">The entry.</param>
/// <param name="Lane">The state as it is now.</param>
public sealed record LaneChanged(JournalSequence Sequence, LaneState Lane) : ExamChange(Sequence);

/// <summary>A patient was added or corrected.</summary>
/// <param name="Sequence">The entry.</param>
/// <param name="Patient">What was entered.</param>
public sealed record PatientChanged(JournalSequence Sequence, PatientEntered Patient) : ExamChange(Sequence);

/// <summary>Why an event belongs to no exam.</summary>
public enum OrphanReason
{
    /// <summary>Its time may lie on either side of an exam's border.</summary>
    TimeUncertain = 1,

    /// <summary>An exam had ended, and the dial had not been in idle or measure since: it is a remnant.</summary>
    Remnant = 2,
}

/// <summary>An event that belongs to no exam. It stays in the journal and is listed.</summary>
/// <param name="Sequence">The entry.</param>
/// <param name="Serial">The instrument.</param>
/// <param name="When">When it happened.</param>
/// <param name="Reason">Why it belongs to none.</param>
public sealed record EventOrphaned(JournalSequence Sequence, SerialNumber Serial, Moment When, OrphanReason Reason)
    : ExamChange(Sequence);

/// <summary>An entry that changes nothing, and why.</summary>
/// <param name="Sequence">The entry.</param>
/// <param name="Reason">Why, for a person to read.</param>
public sealed record EntryIgnored(JournalSequence Sequence, string Reason) : ExamChange(Sequence);

/// <summary>An entry that concerns no exam was taken note of.</summary>
/// <param name="Sequence">The entry.</param>
/// <param name="Entry">What it says.</param>
public sealed record EntryNoted(JournalSequence Sequence, JournalEntry Entry) : ExamChange(Sequence);
