using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>What a person can be asked for.</summary>
public enum AskedFor
{
    /// <summary>Nothing: the exam is over and nothing is open.</summary>
    Nothing = 0,

    /// <summary>Say whether the room is bright or dim.</summary>
    SayRoomLight = 1,

    /// <summary>Make the room bright.</summary>
    MakeBright = 2,

    /// <summary>Make the room dim.</summary>
    MakeDim = 3,

    /// <summary>Measure one eye's pupil.</summary>
    Measure = 4,

    /// <summary>Judge the form of one eye's pupil.</summary>
    JudgeShape = 5,

    /// <summary>Run a block of stimuli to its count.</summary>
    RunBlock = 6,

    /// <summary>Grade one eye's direct response.</summary>
    GradeDirect = 7,

    /// <summary>Short dwell: which eye constricts less?</summary>
    WhichConstrictsLess = 8,

    /// <summary>Long dwell: which eye lets go?</summary>
    WhichLetsGo = 9,

    /// <summary>Have the patient look near.</summary>
    LookNear = 10,

    /// <summary>Grade one eye's near response.</summary>
    GradeNear = 11,

    /// <summary>Grade the consensual response to light in one eye. Optional.</summary>
    GradeConsensual = 12,

    /// <summary>Make the exam ready for review.</summary>
    MakeReady = 13,
}

/// <summary>The one thing asked for now.</summary>
/// <param name="For">What.</param>
/// <param name="Step">The step that it belongs to; null if to none.</param>
/// <param name="Eye">The eye that it concerns (the lit one, where light is concerned); null if both or none.</param>
/// <param name="Block">The block that it concerns; none if none.</param>
public sealed record Asked(AskedFor For, ExamStep? Step, Eye? Eye, Block Block)
{
    /// <summary>
    /// What is asked for now. A question whose opportunity has come stays until it is answered, right eye before left,
    /// whatever the dial does meanwhile; then comes what is still to be done, in the profile's order.
    /// </summary>
    /// <param name="exam">The exam.</param>
    /// <returns>The one thing.</returns>
    public static Asked Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var steps = ExamSteps.Of(exam);
        var open = steps.Where(s => s.State is StepState.Due or StepState.NotYet or StepState.Skipped).ToArray();
        if (exam.Status == ExamStatus.SetAside || exam.IsSealed)
            return Only(AskedFor.Nothing);
        if (exam.Status != ExamStatus.Open && open.Length == 0)
            return Only(AskedFor.Nothing);
        foreach (var step in open)
        {
            if (Question(exam, step.Step, step.Missing) is { } question)
                return question;
        }

        if (!exam.TakesEvents)
            return Only(exam.Status == ExamStatus.Open ? AskedFor.MakeReady : AskedFor.Nothing);
        return open.Length > 0 ? Doing(exam, open[0]) : Only(AskedFor.MakeReady);
    }

    /// <summary>Whether what a step lacks was to be seen already, so that it only needs to be entered.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="step">The step.</param>
    /// <param name="missing">The eyes for which it still lacks something.</param>
    /// <returns>True if so.</returns>
    internal static bool IsAnswerable(Exam exam, ExamStep step, ImmutableArray<Eye> missing) =>
        !missing.IsEmpty && Question(exam, step, missing) is not null;

    /// <summary>The question of a step, if there was an opportunity to see its answer.</summary>
    private static Asked? Question(Exam exam, ExamStep step, ImmutableArray<Eye> missing)
    {
        switch (step)
        {
            case ExamStep.Shape
                when Eyes(eye => exam.Captures.Any(c => c.Eye == eye) || ExamConditions.IsHidden(exam, eye)):
                return new(AskedFor.JudgeShape, step, missing[0], Block.None);
            case ExamStep.Direct or ExamStep.Consensual:
                var what = step == ExamStep.Direct ? AskedFor.GradeDirect : AskedFor.GradeConsensual;
                foreach (var eye in missing)
                {
                    if (HasStimulus(exam, eye))
                        return new(what, step, eye, Block.Direct);
                }

                return null;
            case ExamStep.SwingShort when HasReached(exam, Block.SwingShort):
                return new(AskedFor.WhichConstrictsLess, step, null, Block.SwingShort);
            case ExamStep.SwingLong when HasReached(exam, Block.SwingLong):
                return new(AskedFor.WhichLetsGo, step, null, Block.SwingLong);
            case ExamStep.Near when ExamConditions.LookedNear(exam):
                return new(AskedFor.GradeNear, step, missing[0], Block.Near);
            default:
                return null;
        }
    }

    /// <summary>What a step needs done before there is anything to judge.</summary>
    private static Asked Doing(Exam exam, StepStatus step) =>
        step.Step switch
        {
            ExamStep.SizesBright => Sizes(exam, step, RoomLight.Bright),
            ExamStep.SizesDim => Sizes(exam, step, RoomLight.Dim),
            ExamStep.Shape => new(AskedFor.Measure, step.Step, step.Missing[0], Block.None),
            ExamStep.SwingShort => new(AskedFor.RunBlock, step.Step, null, Block.SwingShort),
            ExamStep.SwingLong => new(AskedFor.RunBlock, step.Step, null, Block.SwingLong),
            ExamStep.Near => new(AskedFor.LookNear, step.Step, null, Block.Near),
            _ => new(AskedFor.RunBlock, step.Step, step.Missing[0], Block.Direct),
        };

    private static Asked Sizes(Exam exam, StepStatus step, RoomLight wanted)
    {
        var now = ExamConditions.LightNow(exam);
        if (now is null)
            return new(AskedFor.SayRoomLight, step.Step, null, Block.None);
        if (now == wanted)
            return new(AskedFor.Measure, step.Step, step.Missing[0], Block.None);
        return new(wanted == RoomLight.Dim ? AskedFor.MakeDim : AskedFor.MakeBright, step.Step, null, Block.None);
    }

    /// <summary>Whether the direct block gave that eye a complete stimulus.</summary>
    internal static bool HasStimulus(Exam exam, Eye eye) =>
        exam.Stimuli.Any(s => s.Eye == eye && s.Block == Block.Direct && s.End == StimulusEnd.Complete);

    private static bool HasReached(Exam exam, Block block) => BlockRuns.Of(exam, block).Any(run => run.HasReachedCount);

    private static bool Eyes(Func<Eye, bool> condition) =>
        condition(Instrument.Eye.Right) && condition(Instrument.Eye.Left);

    private static Asked Only(AskedFor what) => new(what, null, null, Block.None);
}
