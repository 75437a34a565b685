using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>Shape, and whether a pupil is larger in dim light than in bright.</summary>
internal static class FormCriteria
{
    public static readonly Criterion Shape = new()
    {
        Id = "shape-not-round",
        Kind = CriterionKind.Sign,
        Reads = ["judged shape", "state of that eye"],
        Limit = null,
        Sources = ["Common practice"],
        Asks = "the pupil of {eye} is not round",
        WhenMet = "Pupil of {eye} not round.",
        WhenNotMet = "Pupil of {eye} judged round.",
        Caution = "Consider an earlier operation or injury, adhesions of the iris, or a tonic pupil.",
        Questions = ["Operation, injury, inflammation of that eye?"],
        FurtherLook = "Look at the iris enlarged: edge, segments, adhesions.",
    };

    public static readonly Criterion DimNotLarger = new()
    {
        Id = "dim-not-larger",
        Kind = CriterionKind.Quality,
        Reads = ["size in dim light", "size in bright light", "state of that eye"],
        Limit = null,
        Unit = "mm",
        Sources =
        [
            "Lam BL, Thompson HS, Walls RC, Ophthalmology 1996;103(5):790-793: 104 people's pupils changed by 1.89 mm on average from dark to bright",
        ],
        Asks = "{eye} is not larger in dim light than in bright",
        WhenMet =
            "{eye} is smaller in dim light than in bright, by {value} mm ± {u} mm (k = 2): lights or captures swapped?",
        WhenNotMet = "{eye} is larger in dim light than in bright, by {value} mm ± {u} mm (k = 2).",
        Caution = "Check which light was said for which capture before anything is read from the sizes.",
        FurtherLook = "Measure again in both lights.",
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        foreach (var eye in Sides.Both)
        {
            yield return ShapeOf(input, eye);
            yield return Dim(input, eye);
        }
    }

    private static Finding ShapeOf(CriteriaInput input, Eye eye)
    {
        var judged = CurrentJudgements.Shape(input.Exam, eye);
        var shape = (judged?.Judgement as ShapeJudgement)?.Shape;
        var (verdict, reason) = shape switch
        {
            null => (CriterionVerdict.NotExamined, FindingReason.InputMissing),
            PupilShape.CouldNotSee => (CriterionVerdict.CannotTell, FindingReason.CouldNotSee),
            // A pupil that cannot be seen has no form to find fault with.
            _ when ExamConditions.IsHidden(input.Exam, eye) => (CriterionVerdict.CannotTell, FindingReason.EyeStatus),
            _ when Contradictions.Others(input.Exam, judged!).Length > 0 => (
                CriterionVerdict.CannotTell,
                FindingReason.Contradiction
            ),
            PupilShape.NotRound => (CriterionVerdict.Met, FindingReason.None),
            _ when EyeEffects.OnShape(input.Exam, eye) => (CriterionVerdict.CannotTell, FindingReason.EyeStatus),
            _ => (CriterionVerdict.NotMet, FindingReason.None),
        };
        return FindingText.Complete(
            Shape,
            new()
            {
                Criterion = Shape.Id,
                Verdict = verdict,
                Reason = reason,
                Eye = eye,
            }
        );
    }

    private static Finding Dim(CriteriaInput input, Eye eye)
    {
        var finding = new Finding
        {
            Criterion = DimNotLarger.Id,
            Verdict = CriterionVerdict.NotExamined,
            Reason = FindingReason.InputMissing,
            Eye = eye,
        };
        var dim = SizeDifference.Size(input, eye, RoomLight.Dim);
        var bright = SizeDifference.Size(input, eye, RoomLight.Bright);
        if (dim is not null && bright is not null)
        {
            var widening = dim.Diameter.Millimetres - bright.Diameter.Millimetres;
            var expanded = Comparison.ExpandedUncertaintyOfDifference(dim.Diameter, bright.Diameter);
            var (verdict, reason) = Widens(widening, expanded);
            var trouble = SizeDifference.Trouble(dim) is var t and not FindingReason.None
                ? t
                : SizeDifference.Trouble(bright);
            if (trouble != FindingReason.None)
                (verdict, reason) = (CriterionVerdict.CannotTell, trouble);
            finding = finding with
            {
                Verdict = verdict,
                Reason = reason,
                Value = Math.Abs(widening),
                ExpandedUncertainty = expanded,
            };
        }

        return FindingText.Complete(DimNotLarger, finding, SizeDifference.Uncalibrated(input));
    }

    private static (CriterionVerdict, FindingReason) Widens(double widening, double expanded)
    {
        if (widening > expanded + 1e-6)
            return (CriterionVerdict.NotMet, FindingReason.None);
        return widening + expanded < -1e-6
            ? (CriterionVerdict.Met, FindingReason.None)
            : (CriterionVerdict.CannotTell, FindingReason.Uncertainty);
    }
}
