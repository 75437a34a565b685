using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>What is worth reminding of.</summary>
public enum ReminderKind
{
    /// <summary>A step is about to be left out, or was.</summary>
    StepLeftOut = 1,

    /// <summary>The near response is due.</summary>
    NearDue = 2,

    /// <summary>The consensual response would tell more. Optional.</summary>
    ConsensualWorthwhile = 3,

    /// <summary>
    /// The dim sizes were taken after unequal times in the dark, before both eyes had settled: measure the first eye again.
    /// </summary>
    MeasureFirstEyeAgain = 4,

    /// <summary>The room light is not said.</summary>
    LightNotSaid = 5,

    /// <summary>Fixation is still near.</summary>
    FixationLeftNear = 6,

    /// <summary>Sizes or light tests were taken with near fixation.</summary>
    TakenWithNearFixation = 7,

    /// <summary>The same eye was measured twice under the same light.</summary>
    SameLightTwice = 8,

    /// <summary>A block was left before it reached its count.</summary>
    BlockIncomplete = 9,

    /// <summary>Stimuli were not surely within the tolerance.</summary>
    TimingOff = 10,

    /// <summary>Outcomes of the swinging test disagree: repeat.</summary>
    RepeatSwinging = 11,

    /// <summary>The near response was tested in another light than the direct one.</summary>
    NearInOtherLight = 12,

    /// <summary>The instrument is still on after an exam. About the lane, see <see cref="LaneReminders"/>.</summary>
    InstrumentLeftOn = 13,

    /// <summary>
    /// A dim size was taken before the eye had settled in the dark, though after a time like the other eye's.
    /// </summary>
    DimTakenTooSoon = 14,
}

/// <summary>One reminder.</summary>
/// <param name="Kind">What.</param>
/// <param name="Step">The step that it concerns, if any.</param>
/// <param name="Eye">The eye that it concerns, if one.</param>
/// <param name="Block">The block that it concerns, if any.</param>
public sealed record Reminder(ReminderKind Kind, ExamStep? Step, Eye? Eye, Block Block);

/// <summary>What an examiner would want to be reminded of, in a fixed order.</summary>
public static class Reminders
{
    /// <summary>The reminders of an exam.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>The reminders; empty if there are none.</returns>
    public static ImmutableArray<Reminder> Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return [.. Steps(exam), .. Sizes(exam), .. Light(exam), .. Blocks(exam)];
    }

    private static IEnumerable<Reminder> Steps(Exam exam)
    {
        foreach (var step in ExamSteps.Of(exam))
        {
            if (step is { Step: ExamStep.Near, State: not (StepState.Done or StepState.NotPossible) })
                yield return new(ReminderKind.NearDue, step.Step, null, Block.Near);
            else if (step.State == StepState.Skipped)
                yield return new(ReminderKind.StepLeftOut, step.Step, null, Block.None);
        }

        var hasConsensual =
            CurrentJudgements.Consensual(exam, Eye.Right) is not null
            && CurrentJudgements.Consensual(exam, Eye.Left) is not null;
        if (ExamSteps.IsConsensualPrompted(exam) && !hasConsensual)
            yield return new(ReminderKind.ConsensualWorthwhile, ExamStep.Consensual, null, Block.Direct);
    }

    private static IEnumerable<Reminder> Sizes(Exam exam)
    {
        if (SizeEquality.Of(exam, RoomLight.Dim).Obstacle == EqualityObstacle.DarkUnequalAndUnsettled)
            yield return new(ReminderKind.MeasureFirstEyeAgain, ExamStep.SizesDim, FirstInDark(exam), Block.None);
        else
        {
            foreach (var eye in new[] { Eye.Right, Eye.Left }.Where(eye => WasTooSoon(exam, eye)))
                yield return new(ReminderKind.DimTakenTooSoon, ExamStep.SizesDim, eye, Block.None);
        }

        foreach (
            var (step, light) in new[] { (ExamStep.SizesBright, RoomLight.Bright), (ExamStep.SizesDim, RoomLight.Dim) }
        )
        {
            foreach (var eye in new[] { Eye.Right, Eye.Left })
            {
                var size = PupilSizes.Of(exam, eye, light);
                if (size is { Superseded: > 0 })
                    yield return new(ReminderKind.SameLightTwice, step, eye, Block.None);
                if (size is { WithNearFixation: true })
                    yield return new(ReminderKind.TakenWithNearFixation, step, eye, Block.None);
            }
        }
    }

    private static IEnumerable<Reminder> Light(Exam exam)
    {
        if (exam.TakesEvents && ExamConditions.LightNow(exam) is null)
            yield return new(ReminderKind.LightNotSaid, null, null, Block.None);
        var direct = exam.Judgements.LastOrDefault(j =>
            j is { WithdrawnBy: null, Judgement: Judgements.DirectResponse }
        );
        var near = exam.Judgements.LastOrDefault(j => j is { WithdrawnBy: null, Judgement: Judgements.NearResponse });
        // While the other eye's near response is still to be judged, near is where the patient shall look.
        if (exam.TakesEvents && HasJudgedNear(exam) && ExamConditions.FixationNow(exam) == Fixation.Near)
            yield return new(ReminderKind.FixationLeftNear, null, null, Block.None);
        if (direct?.Fixation == Fixation.Near)
            yield return new(ReminderKind.TakenWithNearFixation, ExamStep.Direct, null, Block.Direct);
        if (direct is not null && near is not null && (direct.Light != near.Light || near.Light is null))
            yield return new(ReminderKind.NearInOtherLight, ExamStep.Near, null, Block.Near);
    }

    private static IEnumerable<Reminder> Blocks(Exam exam)
    {
        foreach (var runs in BlockRuns.Of(exam).GroupBy(run => run.Block))
        {
            var last = runs.Last();
            var isStillOn = exam.TakesEvents && exam.Dial.Latest?.Block == last.Block;
            if (!last.HasReachedCount && !isStillOn)
                yield return new(ReminderKind.BlockIncomplete, null, null, last.Block);
            if (!last.IsTimely)
                yield return new(ReminderKind.TimingOff, null, null, last.Block);
        }

        if (Swinging.Of(exam).State == SwingState.Disagree)
            yield return new(ReminderKind.RepeatSwinging, null, null, Block.None);
    }

    private static bool HasJudgedNear(Exam exam) =>
        exam.Judgements.Any(j => j is { WithdrawnBy: null, Judgement: Judgements.NearResponse })
        && new[] { Eye.Right, Eye.Left }.All(eye =>
            CurrentJudgements.Near(exam, eye) is not null || ExamConditions.IsHidden(exam, eye)
        );

    private static bool WasTooSoon(Exam exam, Eye eye) =>
        PupilSizes.Of(exam, eye, RoomLight.Dim)?.Capture.DarkMilliseconds
        < exam.Profile.Light.DarkSettledAfterMilliseconds;

    private static Eye FirstInDark(Exam exam)
    {
        var right = PupilSizes.Of(exam, Eye.Right, RoomLight.Dim)!.Capture.DarkMilliseconds;
        var left = PupilSizes.Of(exam, Eye.Left, RoomLight.Dim)!.Capture.DarkMilliseconds;
        return right <= left ? Eye.Right : Eye.Left;
    }
}
