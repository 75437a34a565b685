using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>Whether the sizes of both eyes differ under one light by more than a limit.</summary>
internal static class AnisocoriaCriteria
{
    private const string NoRule =
        "A size difference of any amount decides nothing by itself: a small one is no reassurance, a large one no disease.";

    public static readonly Criterion Descriptive = new()
    {
        Id = "anisocoria-descriptive",
        Kind = CriterionKind.Sign,
        Reads = ["sizes of both eyes under one light", "times in the dark", "state of both eyes"],
        Limit = new(0.4, "mm", "Lam et al. 1987", nameof(CriteriaLimits.DescriptiveAnisocoria)),
        Sources =
        [
            "Lam BL, Thompson HS, Corbett JJ, Am J Ophthalmol 1987;104(1):69-73: 24 of 128 people without eye disease (19 %) at any one examination in dim light, 41 % at least once in ten, 3 % always",
            "Lam BL, Thompson HS, Walls RC, Ophthalmology 1996;103(5):790-793: 18 % in darkness, 8 % in room light with a hand light",
        ],
        Asks = "the sizes in {light} light differ by more than {limit} mm",
        WhenMet =
            "Anisocoria in {light} light: {eye} larger by {value} mm ± {u} mm (k = 2), more than the descriptive limit of {limit} mm.",
        WhenNotMet =
            "The sizes in {light} light differ by {value} mm ± {u} mm (k = 2), at most the descriptive limit of {limit} mm.",
        Caution = NoRule,
        Questions = ["Since when? Older photographs?", "Lids, eye movements, pain, drops?"],
        FurtherLook =
            "Compare both lights; watch both pupils for 5 and 15 s after the light goes; look at lids and eye movements.",
    };

    public static readonly Criterion Clinical = new()
    {
        Id = "anisocoria-clinical",
        Kind = CriterionKind.Sign,
        Reads = Descriptive.Reads,
        Limit = new(1.0, "mm", "textbook convention", nameof(CriteriaLimits.ClinicalAnisocoria)),
        Sources =
        [
            "Textbook rule read on a university teaching page: up to 1 mm counts as physiologic only where both pupils react briskly and there is no dilation lag; 1.0 mm or more is rare",
            "Silbert et al., J AAPOS 2013;17(6) (fragment): 2.3 % of 1306 clinic children at 1.0 mm or more",
        ],
        Asks = "the sizes in {light} light differ by more than {limit} mm",
        WhenMet =
            "Anisocoria in {light} light: {eye} larger by {value} mm ± {u} mm (k = 2), more than the clinical limit of {limit} mm.",
        WhenNotMet =
            "The sizes in {light} light differ by {value} mm ± {u} mm (k = 2), at most the clinical limit of {limit} mm.",
        Caution =
            "Consider an urgent look where it is new. With headache, altered consciousness or head injury it is urgent. "
            + NoRule,
        Questions =
        [
            "New, or on older photographs?",
            "Lid drooping, limited eye movements or double vision?",
            "Pain, headache, neck pain, injury?",
            "Drops, nebuliser, patches or plants?",
        ],
        FurtherLook = Descriptive.FurtherLook,
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        foreach (var light in new[] { RoomLight.Bright, RoomLight.Dim })
        {
            yield return Of(input, Descriptive, light, input.LimitsInUse.DescriptiveAnisocoria.Millimetres);
            yield return Of(input, Clinical, light, input.LimitsInUse.ClinicalAnisocoria.Millimetres);
        }
    }

    private static Finding Of(CriteriaInput input, Criterion criterion, RoomLight light, double limit)
    {
        var equality = SizeDifference.Equality(input, light);
        var difference = equality.DifferenceMillimetres;
        var (verdict, reason) =
            equality.Obstacle == EqualityObstacle.None
                ? SizeDifference.Beyond(
                    Math.Abs(difference!.Value),
                    equality.ExpandedUncertaintyMillimetres!.Value,
                    limit
                )
                : SizeDifference.Obstacle(equality.Obstacle);
        var finding = new Finding
        {
            Criterion = criterion.Id,
            Verdict = verdict,
            Reason = reason,
            Light = light,
            Eye = Larger(difference),
            Value = difference is { } d ? Math.Abs(d) : null,
            ExpandedUncertainty = equality.ExpandedUncertaintyMillimetres,
            Limit = limit,
        };
        return FindingText.Complete(criterion, finding, SizeDifference.Uncalibrated(input));
    }

    /// <summary>The eye with the larger pupil; null where none is.</summary>
    public static Eye? Larger(double? difference) =>
        difference switch
        {
            > 1e-6 => Eye.Right,
            < -1e-6 => Eye.Left,
            _ => null,
        };
}
