using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Steps;

/// <summary>
/// A judgement counts only where there was an opportunity to see what it says. One that comes too early is refused with its
/// reason: it stays in the journal, and is shown as refused.
/// </summary>
internal static class JudgementGates
{
    private readonly record struct Gate(JudgementRefusal? Refusal, Stimulus? Stimulus, int Run)
    {
        public static Gate Refused(JudgementRefusal reason) => new(reason, null, 0);

        public static Gate Passed => new(null, null, 0);
    }

    public static Exam Enter(Exam exam, JudgementEntered entered, JournalSequence sequence)
    {
        var gate = exam.Status == ExamStatus.SetAside ? Gate.Refused(JudgementRefusal.ExamSetAside) : Of(exam, entered);
        if (gate.Refusal is { } reason)
            return Refused(exam, entered, sequence, reason);
        return exam with
        {
            Judgements = exam.Judgements.Add(
                new()
                {
                    Entry = entered.Id,
                    Sequence = sequence,
                    Who = entered.Who,
                    At = entered.At,
                    Judgement = entered.Judgement,
                    StepSeen = entered.StepSeen,
                    Stimulus = gate.Stimulus?.On.Sequence,
                    Run = gate.Run,
                    Light = ExamConditions.LightNow(exam),
                    Fixation = ExamConditions.FixationNow(exam),
                    WithdrawnBy = null,
                }
            ),
        };
    }

    /// <summary>The exam with a judgement that does not count.</summary>
    public static Exam Refused(Exam exam, JudgementEntered entered, JournalSequence sequence, JudgementRefusal reason)
    {
        var refused = new RefusedJudgement(entered.Id, sequence, entered.Who, entered.At, entered.Judgement, reason);
        return exam with { RefusedJudgements = exam.RefusedJudgements.Add(refused) };
    }

    private static Gate Of(Exam exam, JudgementEntered entered) =>
        entered.Judgement switch
        {
            ShapeJudgement => ForShape(exam),
            DirectResponse direct => ForResponse(exam, direct.Eye, entered.StimulusSeen),
            ConsensualResponse consensual => ForResponse(exam, consensual.Lit, entered.StimulusSeen),
            SwingOutcome swing => ForSwing(exam, swing.Dwell, entered.StimulusSeen),
            NearResponse => ExamConditions.LookedNear(exam)
                ? Gate.Passed
                : Gate.Refused(JudgementRefusal.NotLookedNear),
            SlowToDilate => LightWentAway(exam) ? Gate.Passed : Gate.Refused(JudgementRefusal.NoLightWentAway),
            _ => Gate.Refused(JudgementRefusal.OtherStimulus),
        };

    // An eye whose pupil is hidden cannot be measured: its fellow's measurement opens the question.
    private static Gate ForShape(Exam exam)
    {
        foreach (var eye in EyeFacts.Both)
        {
            if (!exam.Captures.Any(c => c.Eye == eye) && !ExamConditions.IsHidden(exam, eye))
                return Gate.Refused(JudgementRefusal.BothPupilsNotMeasured);
        }

        return exam.Captures.Count > 0 ? Gate.Passed : Gate.Refused(JudgementRefusal.BothPupilsNotMeasured);
    }

    private static Gate ForResponse(Exam exam, Eye lit, JournalSequence? seen)
    {
        bool Fits(Stimulus s) => s.Eye == lit && s.Block == Block.Direct && s.End == StimulusEnd.Complete;
        return ForStimulus(exam, Fits, seen, JudgementRefusal.NoCompleteStimulus);
    }

    private static Gate ForSwing(Exam exam, Block dwell, JournalSequence? seen)
    {
        var reached = BlockRuns.Of(exam, dwell).Where(run => run.HasReachedCount).Select(run => run.Number).ToHashSet();
        bool Fits(Stimulus s) => s.Block == dwell && reached.Contains(s.Run);
        return ForStimulus(exam, Fits, seen, JudgementRefusal.AlternationsNotComplete);
    }

    private static Gate ForStimulus(
        Exam exam,
        Func<Stimulus, bool> fits,
        JournalSequence? seen,
        JudgementRefusal tooEarly
    )
    {
        var last = exam.Stimuli.LastOrDefault(fits);
        if (last is null)
            return Gate.Refused(tooEarly);
        if (seen is not { } named)
            return new(null, last, last.Run);
        var stimulus = exam.Stimuli.FirstOrDefault(s => s.On.Sequence == named && fits(s));
        return stimulus is null ? Gate.Refused(JudgementRefusal.OtherStimulus) : new(null, stimulus, stimulus.Run);
    }

    private static bool LightWentAway(Exam exam)
    {
        if (exam.Stimuli.Any(s => s.Off is not null))
            return true;
        return exam
            .Light.Zip(exam.Light.Skip(1))
            .Any(p => p is { First.Light: RoomLight.Bright, Second.Light: RoomLight.Dim });
    }
}
