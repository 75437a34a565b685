using System.Collections.Immutable;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Views;

/// <summary>Why a clinician should see a patient before drops are put in, after which none of it can be looked at again.</summary>
public enum BeforeDropsKind
{
    /// <summary>A direct response of at most the grade at which the profile wants the near response tested.</summary>
    PoorDirect = 1,

    /// <summary>
    /// The swinging test did not show both eyes alike; without an eye, its outcomes disagree. Where it is not sure, no defect is
    /// claimed of the eye that is named: light in it looked worse, and a pupil that was watched may not move, or near fixation or the
    /// state of an eye made it unreliable.
    /// </summary>
    SwingAsymmetry = 2,

    /// <summary>Sizes differ by more than the limit in use, and did not at earlier visits.</summary>
    AnisocoriaNew = 3,

    /// <summary>Sizes differ by more than the limit in use, and no earlier visit tells of it.</summary>
    AnisocoriaNotKnownBefore = 4,

    /// <summary>Sizes differed before, and today by more than the limit in use beyond that.</summary>
    AnisocoriaGrown = 5,

    /// <summary>The exam is over, and a step of it was not examined.</summary>
    Incomplete = 6,
}

/// <summary>One reason. It says what was seen or is missing, and is no diagnosis.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Eye">The eye of a poor response or of the swinging test's lesser response; the eye with the larger pupil; null where it is about both.</param>
public sealed record BeforeDropsReason(BeforeDropsKind Kind, Eye? Eye)
{
    /// <summary>The grade of a poor direct response; null elsewhere.</summary>
    public Grade? Grade { get; init; }

    /// <summary>The light under which sizes differ; null elsewhere.</summary>
    public RoomLight? Light { get; init; }

    /// <summary>By how much they differ, in mm, without a sign; null elsewhere.</summary>
    public double? DifferenceMillimetres { get; init; }

    /// <summary>The expanded uncertainty (k = 2) of that difference, in mm; null elsewhere.</summary>
    public double? ExpandedUncertaintyMillimetres { get; init; }

    /// <summary>The limit in use, in mm; null elsewhere.</summary>
    public double? LimitMillimetres { get; init; }

    /// <summary>
    /// Whether the sizes surely differ by more than the limit; false where that cannot be told: at this uncertainty, after
    /// these times in the dark, with near fixation, or for the state of an eye. Of swinging, whether a defect of that eye is claimed.
    /// True for all other kinds.
    /// </summary>
    public bool IsSure { get; init; } = true;

    /// <summary>The step that was not examined; null elsewhere.</summary>
    public ExamStep? Step { get; init; }
}

/// <summary>Why a clinician should see a patient before drops: what was seen first, then what is missing.</summary>
public static class BeforeDrops
{
    /// <summary>The reasons of an exam.</summary>
    /// <param name="exam">The exam; of a running one, the reasons so far.</param>
    /// <param name="earlier">The patient's other exams, in any order; those that did not open before this one are passed over.</param>
    /// <param name="corrections">The corrections of both scales; null for none.</param>
    /// <returns>
    /// The reasons, right before left, bright before dim; empty if there is none, which is no reassurance. None for an exam that
    /// was set aside.
    /// </returns>
    public static ImmutableArray<BeforeDropsReason> Of(
        Exam exam,
        IEnumerable<EarlierVisit> earlier,
        PerEye<ICorrection>? corrections = null
    )
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(earlier);
        if (exam.Status == ExamStatus.SetAside)
            return [];
        EarlierVisit[] before = [.. earlier.Where(v => v.Exam != exam.Id && v.OpenedAt <= exam.Opening.When.At)];
        return
        [
            .. Direct(exam),
            .. Swings(exam),
            .. Anisocoria(exam, RoomLight.Bright, before, corrections),
            .. Anisocoria(exam, RoomLight.Dim, before, corrections),
            .. Missing(exam),
        ];
    }

    private static IEnumerable<BeforeDropsReason> Direct(Exam exam)
    {
        foreach (var eye in new[] { Eye.Right, Eye.Left })
        {
            if (CurrentJudgements.Direct(exam, eye) is not { } stands)
                continue;
            // Whoever said it, and whatever somebody else said later: it must be looked at before it cannot be seen any more.
            var poor = Contradictions
                .Others(exam, stands)
                .Append(stands)
                .Select(said => ((DirectResponse)said.Judgement).Grade)
                .Where(grade => grade.HalfSteps <= exam.Profile.Chart.NearDueAtMost.HalfSteps)
                .OrderBy(grade => grade.HalfSteps)
                .FirstOrDefault();
            if (poor.HalfSteps is not null)
                yield return new(BeforeDropsKind.PoorDirect, eye) { Grade = poor };
        }
    }

    private static IEnumerable<BeforeDropsReason> Swings(Exam exam)
    {
        var swinging = Swinging.Of(exam);
        if (swinging.State == SwingState.Disagree)
            yield return new(BeforeDropsKind.SwingAsymmetry, null);
        else if (swinging.WorseEye is { } worse)
            yield return new(BeforeDropsKind.SwingAsymmetry, worse) { IsSure = swinging.State == SwingState.Seen };
    }

    private static IEnumerable<BeforeDropsReason> Anisocoria(
        Exam exam,
        RoomLight light,
        EarlierVisit[] before,
        PerEye<ICorrection>? corrections
    )
    {
        var equality = SizeEquality.Of(exam, light, corrections);
        var limit = exam.Profile.Chart.EqualWithin.Millimetres;
        if (equality.DifferenceMillimetres is not { } difference || !IsBeyond(Math.Abs(difference), limit))
            yield break;
        // A difference the other way round is another one.
        var sign = Math.Sign(difference);
        double[] known = [.. before.Select(v => v.Difference(light)).OfType<double>().Select(d => sign * d)];
        var largest = known.Length == 0 ? 0 : known.Max();
        BeforeDropsKind kind;
        if (known.Length == 0)
            kind = BeforeDropsKind.AnisocoriaNotKnownBefore;
        else if (!IsBeyond(largest, limit))
            kind = BeforeDropsKind.AnisocoriaNew;
        else if (IsBeyond(Math.Abs(difference) - largest, limit))
            kind = BeforeDropsKind.AnisocoriaGrown;
        else
            yield break;
        yield return new(kind, sign > 0 ? Eye.Right : Eye.Left)
        {
            Light = light,
            DifferenceMillimetres = Math.Abs(difference),
            ExpandedUncertaintyMillimetres = equality.ExpandedUncertaintyMillimetres,
            LimitMillimetres = limit,
            IsSure = equality.Verdict == LimitVerdict.Above,
        };
    }

    // Sums of decimals are not exact in binary; a nanometre decides nothing.
    private static bool IsBeyond(double millimetres, double limit) => millimetres > limit + 1e-6;

    private static IEnumerable<BeforeDropsReason> Missing(Exam exam)
    {
        if (exam.TakesEvents)
            yield break;
        foreach (var step in ExamSteps.Of(exam))
        {
            if (step.State is not (StepState.Done or StepState.NotPossible) && step.Step != ExamStep.Consensual)
                yield return new(BeforeDropsKind.Incomplete, step.Missing.Length == 1 ? step.Missing[0] : null)
                {
                    Step = step.Step,
                };
        }
    }
}
