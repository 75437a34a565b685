using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>Change since the last visit that can be compared, beyond the uncertainty of both and the scatter between visits.</summary>
internal static class ChangeCriteria
{
    private const string Scatter =
        "\"Day to day variability of the dark-adapted pupil diameter\" (abstract; authors not shown): 40 people, mean difference 0.032 mm (95 % CI -0.030 to 0.094) at 5 min; its standard deviation, 0.19 mm, is computed from that interval";

    public static readonly Criterion Size = new()
    {
        Id = "size-changed",
        Kind = CriterionKind.Sign,
        Reads = ["size under one light today and at the last visit", "room light of both", "state of that eye"],
        Limit = new(
            0.19,
            "mm",
            "computed from a published interval (standard deviation between visits)",
            nameof(CriteriaLimits.BetweenVisits)
        ),
        Sources = [Scatter],
        Asks = "{eye} in {light} light changed since the last visit{detail}",
        WhenMet =
            "{eye} in {light} light changed since the last visit{detail} by {value} mm ± {u} mm (k = 2, scatter between visits included).",
        WhenNotMet =
            "{eye} in {light} light changed since the last visit{detail} by {value} mm, within repeatability of ± {u} mm (k = 2).",
        Caution = "The scatter was found in the dark and is taken for other lights by assumption.",
        Questions = ["Drugs or drops since then?", "Same room light?"],
        FurtherLook = "Measure again; compare the fellow eye, which shares light and arousal.",
    };

    public static readonly Criterion Difference = new()
    {
        Id = "anisocoria-changed",
        Kind = CriterionKind.Sign,
        Reads = ["sizes of both eyes under one light today and at the last visit", "state of both eyes"],
        Limit = Size.Limit,
        Sources = [Scatter, "Lam et al. 1987: whether someone shows 0.4 mm or more changes from visit to visit"],
        Asks = "the size difference in {light} light changed since the last visit{detail}",
        WhenMet =
            "The size difference in {light} light changed since the last visit{detail} by {value} mm ± {u} mm (k = 2, scatter between visits included), towards a larger {eye}.",
        WhenNotMet =
            "The size difference in {light} light changed since the last visit{detail} by {value} mm, within repeatability of ± {u} mm (k = 2).",
        Caution = "A new difference is of more weight than an old one: consider an urgent look.",
        Questions = ["Lids, eye movements, pain, injury, drops?"],
        FurtherLook = "Measure again; older photographs.",
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        foreach (var light in new[] { RoomLight.Bright, RoomLight.Dim })
        {
            foreach (var eye in Sides.Both)
                yield return SizeOf(input, eye, light);
            yield return DifferenceOf(input, light);
        }
    }

    private static Finding SizeOf(CriteriaInput input, Eye eye, RoomLight light)
    {
        var finding = Missing(Size, light) with { Eye = eye };
        if (SizeDifference.Size(input, eye, light) is not { } today)
            return FindingText.Complete(Size, finding);
        var before = Visits(input)
            .Select(e => PupilSizes.Of(e, eye, light, input.Corrections))
            .FirstOrDefault(s => s is not null && SizeDifference.Trouble(s) == FindingReason.None);
        if (before is null)
            return FindingText.Complete(Size, finding with { Reason = FindingReason.NoEarlierVisit });
        var change = today.Diameter.Millimetres - before.Diameter.Millimetres;
        var expanded = WithVisits(input, Comparison.ExpandedUncertaintyOfDifference(today.Diameter, before.Diameter));
        var (verdict, reason) = Changed(change, expanded);
        if (SizeDifference.Trouble(today) is var trouble and not FindingReason.None)
            (verdict, reason) = (CriterionVerdict.CannotTell, trouble);
        else if (!IsLike(input.LimitsInUse, today.Capture.Millilux, before.Capture.Millilux))
            (verdict, reason) = (CriterionVerdict.CannotTell, FindingReason.OtherRoomLight);
        else if (light == RoomLight.Dim && !BothSettled(input.Exam, today, before))
            (verdict, reason) = (CriterionVerdict.CannotTell, FindingReason.DarkUnequalAndUnsettled);
        return FindingText.Complete(
            Size,
            finding with
            {
                Verdict = verdict,
                Reason = reason,
                Value = Math.Abs(change),
                ExpandedUncertainty = expanded,
                Detail = Of(before.Capture.When.At),
            },
            SizeDifference.Uncalibrated(input)
        );
    }

    private static Finding DifferenceOf(CriteriaInput input, RoomLight light)
    {
        var finding = Missing(Difference, light);
        var today = SizeDifference.Equality(input, light);
        if (today.DifferenceMillimetres is not { } now)
            return FindingText.Complete(Difference, finding);
        var before = Visits(input)
            .Select(e => (e.Opening.When.At, Sizes: SizeEquality.Of(e, light, input.Corrections)))
            .FirstOrDefault(e => e.Sizes.Obstacle == EqualityObstacle.None);
        if (before.Sizes is null)
            return FindingText.Complete(Difference, finding with { Reason = FindingReason.NoEarlierVisit });
        var change = now - before.Sizes.DifferenceMillimetres!.Value;
        var (one, other) = (today.Diameters!, before.Sizes.Diameters!);
        var both = Comparison.ExpandedUncertaintyOf((1, one.Right), (-1, one.Left), (-1, other.Right), (1, other.Left));
        var expanded = WithVisits(input, both);
        var (verdict, reason) =
            today.Obstacle == EqualityObstacle.None
                ? Changed(change, expanded)
                : SizeDifference.Obstacle(today.Obstacle);
        return FindingText.Complete(
            Difference,
            finding with
            {
                Verdict = verdict,
                Reason = reason,
                Eye = verdict == CriterionVerdict.Met ? AnisocoriaCriteria.Larger(change) : null,
                Value = Math.Abs(change),
                ExpandedUncertainty = expanded,
                Detail = Of(before.At),
            },
            SizeDifference.Uncalibrated(input)
        );
    }

    // As it stands in the sentence: which visit it was.
    private static string Of(UtcTime at) => $" of {at.ToString()[..10]}";

    private static (CriterionVerdict, FindingReason) Changed(double change, double expanded) =>
        Math.Abs(change) > expanded + 1e-6
            ? (CriterionVerdict.Met, FindingReason.None)
            : (CriterionVerdict.NotMet, FindingReason.None);

    private static double WithVisits(CriteriaInput input, double expanded)
    {
        var visits = Diameter.CoverageFactor * input.LimitsInUse.BetweenVisits.Millimetres;
        return Math.Sqrt((expanded * expanded) + (visits * visits));
    }

    // Nobody's reading counts in another person's exam, and none that was never made ready.
    private static IEnumerable<Exam> Visits(CriteriaInput input) =>
        input
            .Earlier.Where(e =>
                input.Exam.Patient is { } patient
                && e.Patient is { } other
                && (other == patient || (input.SamePerson.Contains(patient) && input.SamePerson.Contains(other)))
                && e.Id != input.Exam.Id
                && e.Opening.When.At < input.Exam.Opening.When.At
                && e.Status is ExamStatus.ReadyForReview or ExamStatus.Signed or ExamStatus.Amended
            )
            .OrderByDescending(e => e.Opening.When.At);

    // Without a sensor nobody can tell; then the words bright and dim are all there is, as in the sentence's question.
    private static bool IsLike(CriteriaLimits limits, long? one, long? other) =>
        one is not { } a || other is not { } b || Math.Max(a, b) <= (limits.LikeLightFactor * Math.Min(a, b)) + 1e-6;

    private static bool BothSettled(Exam exam, PupilSize today, PupilSize before)
    {
        var settled = exam.Profile.Light.DarkSettledAfterMilliseconds;
        return today.Capture.DarkMilliseconds >= settled && before.Capture.DarkMilliseconds >= settled;
    }

    private static Finding Missing(Criterion criterion, RoomLight light) =>
        new()
        {
            Criterion = criterion.Id,
            Verdict = CriterionVerdict.NotExamined,
            Reason = FindingReason.InputMissing,
            Light = light,
        };
}
