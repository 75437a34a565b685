using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>A judgement that counts, with what the person saw. A later one about the same thing goes before it and keeps it.</summary>
public sealed record JudgementRecord
{
    /// <summary>The person's entry.</summary>
    public required EntryId Entry { get; init; }

    /// <summary>Where it stands in the journal.</summary>
    public required JournalSequence Sequence { get; init; }

    /// <summary>Who judged.</summary>
    public required PersonId Who { get; init; }

    /// <summary>When it was entered.</summary>
    public required UtcTime At { get; init; }

    /// <summary>What was judged.</summary>
    public required Judgement Judgement { get; init; }

    /// <summary>The step that the person was asked for.</summary>
    public required ExamStep? StepSeen { get; init; }

    /// <summary>The stimulus that it is about, by the entry of its lamp going on; null where it is about none.</summary>
    public required JournalSequence? Stimulus { get; init; }

    /// <summary>The run of the block that it is about, from 1; 0 where it is about none.</summary>
    public required int Run { get; init; }

    /// <summary>The room light when it was judged; null if it was not said.</summary>
    public required RoomLight? Light { get; init; }

    /// <summary>Where the patient looked when it was judged; null if it was not said.</summary>
    public required Fixation? Fixation { get; init; }

    /// <summary>The entry that took it back; null as long as it counts.</summary>
    public required EntryId? WithdrawnBy { get; init; }
}

/// <summary>Why a judgement does not count. It stays in the journal and is shown as refused.</summary>
public enum JudgementRefusal
{
    /// <summary>Shape: both pupils have not been measured yet.</summary>
    BothPupilsNotMeasured = 1,

    /// <summary>Direct or consensual response: that eye has not had a complete stimulus yet.</summary>
    NoCompleteStimulus = 2,

    /// <summary>Swinging: that dwell's alternations are not complete yet.</summary>
    AlternationsNotComplete = 3,

    /// <summary>Near response: the patient has not looked near yet.</summary>
    NotLookedNear = 4,

    /// <summary>Slow to dilate: no light has gone away yet.</summary>
    NoLightWentAway = 5,

    /// <summary>The stimulus named is not one of this exam, or not one that shows this.</summary>
    OtherStimulus = 6,

    /// <summary>The exam was set aside.</summary>
    ExamSetAside = 7,

    /// <summary>The exam was signed, and no amendment was begun.</summary>
    ExamSigned = 8,
}

/// <summary>A judgement that does not count, and why.</summary>
/// <param name="Entry">The person's entry.</param>
/// <param name="Sequence">Where it stands in the journal.</param>
/// <param name="Who">Who judged.</param>
/// <param name="At">When it was entered.</param>
/// <param name="Judgement">What was judged.</param>
/// <param name="Reason">Why it does not count.</param>
public sealed record RefusedJudgement(
    EntryId Entry,
    JournalSequence Sequence,
    PersonId Who,
    UtcTime At,
    Judgement Judgement,
    JudgementRefusal Reason
);
