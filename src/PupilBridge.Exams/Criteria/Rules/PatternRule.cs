using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>In which light a size difference is larger, beyond the uncertainty of the four sizes.</summary>
internal static class PatternRule
{
    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        var (bright, dim) = (
            SizeDifference.Equality(input, RoomLight.Bright),
            SizeDifference.Equality(input, RoomLight.Dim)
        );
        var obstacle = Obstacle(bright, dim);
        if (obstacle.Reason != FindingReason.None)
            return All(obstacle);
        var (inBright, inDim) = (bright.DifferenceMillimetres!.Value, dim.DifferenceMillimetres!.Value);
        var (ub, ud) = (bright.ExpandedUncertaintyMillimetres!.Value, dim.ExpandedUncertaintyMillimetres!.Value);
        if (inBright * inDim < 0 && Math.Abs(inBright) > ub && Math.Abs(inDim) > ud)
            return All((CriterionVerdict.CannotTell, FindingReason.OtherEyeLarger));
        // Seen from the eye that is larger where the difference is greatest.
        var sign = Math.Sign(Math.Abs(inDim) >= Math.Abs(inBright) ? inDim : inBright);
        var (growth, expanded) = (sign * (inDim - inBright), Expanded(bright.Diameters!, dim.Diameters!));
        Eye? larger = sign == 0 ? null : AnisocoriaCriteria.Larger(sign);
        return Decide(input, bright, dim, growth, expanded, larger);
    }

    private static double Expanded(PerEye<Diameter> bright, PerEye<Diameter> dim) =>
        Comparison.ExpandedUncertaintyOf((1, dim.Right), (-1, dim.Left), (-1, bright.Right), (1, bright.Left));

    private static Finding[] Decide(
        CriteriaInput input,
        SizeEquality bright,
        SizeEquality dim,
        double growth,
        double expanded,
        Eye? larger
    )
    {
        var isMoreInDim = growth > expanded + 1e-6;
        var isMoreInBright = -growth > expanded + 1e-6;
        var alike = (Verdict: CriterionVerdict.NotMet, Reason: FindingReason.None);
        if (!isMoreInDim && !isMoreInBright)
            alike = Presence(input, bright, dim);
        Finding Make(Criterion criterion, (CriterionVerdict Verdict, FindingReason Reason) outcome, Eye? eye) =>
            FindingText.Complete(
                criterion,
                new()
                {
                    Criterion = criterion.Id,
                    Verdict = outcome.Verdict,
                    Reason = outcome.Reason,
                    Eye = eye,
                    Value = Math.Abs(growth),
                    ExpandedUncertainty = expanded,
                    Limit = criterion.Limit is null ? null : input.LimitsInUse.DescriptiveAnisocoria.Millimetres,
                },
                SizeDifference.Uncalibrated(input)
            );
        return
        [
            Make(PatternCriteria.InDim, Surely(isMoreInDim), isMoreInDim ? larger?.Fellow() : null),
            Make(PatternCriteria.InBright, Surely(isMoreInBright), isMoreInBright ? larger : null),
            Make(PatternCriteria.Alike, alike, alike.Verdict == CriterionVerdict.Met ? larger : null),
        ];
    }

    private static (CriterionVerdict Verdict, FindingReason Reason) Surely(bool holds) =>
        (holds ? CriterionVerdict.Met : CriterionVerdict.NotMet, FindingReason.None);

    // Alike says something only where there is a difference at all.
    private static (CriterionVerdict Verdict, FindingReason Reason) Presence(
        CriteriaInput input,
        params SizeEquality[] lights
    )
    {
        var limit = input.LimitsInUse.DescriptiveAnisocoria.Millimetres;
        var verdicts = lights
            .Select(e =>
                SizeDifference
                    .Beyond(Math.Abs(e.DifferenceMillimetres!.Value), e.ExpandedUncertaintyMillimetres!.Value, limit)
                    .Verdict
            )
            .ToArray();
        if (verdicts.Contains(CriterionVerdict.Met))
            return (CriterionVerdict.Met, FindingReason.None);
        return verdicts.Contains(CriterionVerdict.CannotTell)
            ? (CriterionVerdict.CannotTell, FindingReason.DifferenceNotSure)
            : (CriterionVerdict.NotMet, FindingReason.None);
    }

    private static (CriterionVerdict Verdict, FindingReason Reason) Obstacle(SizeEquality bright, SizeEquality dim)
    {
        // What is missing goes before what is doubtful.
        var (b, d) = (SizeDifference.Obstacle(bright.Obstacle), SizeDifference.Obstacle(dim.Obstacle));
        if (b.Verdict == CriterionVerdict.NotExamined)
            return b;
        return d.Reason == FindingReason.None ? b : d;
    }

    private static Finding[] All((CriterionVerdict Verdict, FindingReason Reason) outcome) =>
        [
            .. new[] { PatternCriteria.InDim, PatternCriteria.InBright, PatternCriteria.Alike }.Select(c =>
                FindingText.Complete(
                    c,
                    new()
                    {
                        Criterion = c.Id,
                        Verdict = outcome.Verdict,
                        Reason = outcome.Reason,
                    }
                )
            ),
        ];
}
