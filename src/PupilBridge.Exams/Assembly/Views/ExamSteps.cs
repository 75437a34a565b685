using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>Where one step of an exam stands.</summary>
public enum StepState
{
    /// <summary>Everything that it asks for was answered; "could not see" is an answer.</summary>
    Done = 1,

    /// <summary>It is the first one that still lacks something.</summary>
    Due = 2,

    /// <summary>Its turn has not come.</summary>
    NotYet = 3,

    /// <summary>
    /// A later step has begun, or the exam is over, and it still lacks something. A step whose answer was seen already and is only to be
    /// entered is not left out, and the shape, which can be judged at any time, is no later step than another.
    /// </summary>
    Skipped = 4,

    /// <summary>Someone accepted that it stays not examined.</summary>
    AcceptedNotExamined = 5,

    /// <summary>The state of the eyes leaves nothing to examine.</summary>
    NotPossible = 6,
}

/// <summary>One step of an exam.</summary>
/// <param name="Step">Which step.</param>
/// <param name="State">Where it stands.</param>
/// <param name="Missing">The eyes for which it still lacks something.</param>
public sealed record StepStatus(ExamStep Step, StepState State, ImmutableArray<Eye> Missing);

/// <summary>The steps of an exam, in the profile's order.</summary>
public static class ExamSteps
{
    /// <summary>All steps that this exam has: those of its profile, and the near response where it is due.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>The steps with their state.</returns>
    public static ImmutableArray<StepStatus> Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        var steps = Steps(exam);
        var result = ImmutableArray.CreateBuilder<StepStatus>(steps.Length);
        var accepted = exam.NotExamined.Where(n => n.WithdrawnBy is null).SelectMany(n => n.Steps).ToHashSet();
        var dueFound = false;
        for (var i = 0; i < steps.Length; i++)
        {
            var missing = Missing(exam, steps[i]);
            var isLeft =
                steps[(i + 1)..].Any(later => HasBegun(exam, later)) && !Asked.IsAnswerable(exam, steps[i], missing);
            var hasMovedOn = !exam.TakesEvents || isLeft;
            var state = State(missing, IsPossible(exam, steps[i]), accepted.Contains(steps[i]), hasMovedOn, dueFound);
            dueFound |= state == StepState.Due;
            result.Add(new(steps[i], state, missing));
        }

        return result.ToImmutable();
    }

    /// <summary>Whether a poor direct response of either eye makes the near response due.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>True if so.</returns>
    public static bool IsNearDue(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return DirectHalfSteps(exam, Eye.Right) <= exam.Profile.Chart.NearDueAtMost.HalfSteps
            || DirectHalfSteps(exam, Eye.Left) <= exam.Profile.Chart.NearDueAtMost.HalfSteps;
    }

    /// <summary>Whether a poor or unequal direct response prompts for the consensual one.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>True if so.</returns>
    public static bool IsConsensualPrompted(Exam exam) =>
        IsNearDue(exam)
        || (
            DirectHalfSteps(exam, Eye.Right) is { } right
            && DirectHalfSteps(exam, Eye.Left) is { } left
            && right != left
        );

    private static StepState State(
        ImmutableArray<Eye> missing,
        bool isPossible,
        bool isAccepted,
        bool hasMovedOn,
        bool dueFound
    )
    {
        if (!isPossible)
            return StepState.NotPossible;
        if (missing.IsEmpty)
            return StepState.Done;
        if (isAccepted)
            return StepState.AcceptedNotExamined;
        if (hasMovedOn)
            return StepState.Skipped;
        return dueFound ? StepState.NotYet : StepState.Due;
    }

    private static ImmutableArray<ExamStep> Steps(Exam exam)
    {
        ImmutableArray<ExamStep> steps =
        [
            .. exam.Profile.Steps.Items.Distinct().Where(s => s != ExamStep.Consensual || IsConsensualPrompted(exam)),
        ];
        return IsNearDue(exam) && !steps.Contains(ExamStep.Near) ? steps.Add(ExamStep.Near) : steps;
    }

    private static ImmutableArray<Eye> Missing(Exam exam, ExamStep step)
    {
        Eye[] both = [Eye.Right, Eye.Left];
        if (step is ExamStep.SwingShort or ExamStep.SwingLong)
            return CurrentJudgements.Swings(exam, BlockOf(step)).IsEmpty ? [.. both] : [];
        return [.. both.Where(eye => !ExamConditions.IsHidden(exam, eye) && !IsAnswered(exam, step, eye))];
    }

    private static bool IsAnswered(Exam exam, ExamStep step, Eye eye) =>
        step switch
        {
            ExamStep.SizesBright => PupilSizes.Of(exam, eye, RoomLight.Bright) is not null,
            ExamStep.SizesDim => PupilSizes.Of(exam, eye, RoomLight.Dim) is not null,
            ExamStep.Shape => CurrentJudgements.Shape(exam, eye) is not null,
            ExamStep.Direct => CurrentJudgements.Direct(exam, eye) is not null,
            ExamStep.Near => CurrentJudgements.Near(exam, eye) is not null,
            ExamStep.Consensual => CurrentJudgements.Consensual(exam, eye) is not null,
            _ => true,
        };

    private static bool IsPossible(Exam exam, ExamStep step)
    {
        var (right, left) = (ExamConditions.IsHidden(exam, Eye.Right), ExamConditions.IsHidden(exam, Eye.Left));
        return step is ExamStep.SwingShort or ExamStep.SwingLong or ExamStep.Consensual
            ? !right && !left
            : !right || !left;
    }

    private static bool HasBegun(Exam exam, ExamStep step) =>
        step switch
        {
            ExamStep.SizesBright => exam.Captures.Any(c => c.Light == RoomLight.Bright),
            ExamStep.SizesDim => exam.Captures.Any(c => c.Light == RoomLight.Dim),
            ExamStep.Direct => exam.Stimuli.Any(s => s.Block == Block.Direct),
            ExamStep.SwingShort or ExamStep.SwingLong => exam.Stimuli.Any(s => s.Block == BlockOf(step)),
            ExamStep.Near => Has<NearResponse>(exam),
            _ => false,
        };

    private static bool Has<T>(Exam exam)
        where T : Judgement => exam.Judgements.Any(j => j.Judgement is T && j.WithdrawnBy is null);

    private static Block BlockOf(ExamStep step) => step == ExamStep.SwingShort ? Block.SwingShort : Block.SwingLong;

    private static int? DirectHalfSteps(Exam exam, Eye eye) =>
        (CurrentJudgements.Direct(exam, eye)?.Judgement as DirectResponse)?.Grade.HalfSteps;
}
