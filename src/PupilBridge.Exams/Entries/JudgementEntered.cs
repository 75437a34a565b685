using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Exams.Entries;

/// <summary>A person judged what the pupils did.</summary>
public sealed record JudgementEntered : ExamEntry
{
    /// <summary>What was judged, and how.</summary>
    public required Judgement Judgement { get; init; }

    /// <summary>The step that was asked for when the person answered; null if none was shown.</summary>
    public required ExamStep? StepSeen { get; init; }

    /// <summary>
    /// The journal's entry of the lamp going on that began the stimulus the person saw; null if the place of entry does
    /// not know, and then it is the last one that fits.
    /// </summary>
    public required JournalSequence? StimulusSeen { get; init; }
}
