using System.Globalization;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.ExpectedSizes;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>A size beside what age and light explain: context with its spread, never a pass or a fail.</summary>
internal static class ExpectedCriteria
{
    private const string OnlyContext = "Context only: one person can differ from the middle of many by a good deal.";

    public static readonly Criterion AgeAndLight = new()
    {
        Id = "size-beyond-age-and-light",
        Kind = CriterionKind.Context,
        Reads =
        [
            "size under one light",
            "luminance and field of that light, measured at the site",
            "age",
            "state of that eye",
        ],
        Limit = new(2.1, "mm", "ours, from Bradley et al. 2011 and Winn et al. 1994", nameof(CriteriaLimits.SpreadDim)),
        Sources =
        [
            "Watson AB, Yellott JI, Journal of Vision 2012;12(10):12, with its form for children and its limits of validity",
            "Spread: Bradley JC et al., J Refract Surg 2011;27(3):202-207; Winn B et al., IOVS 1994;35(3):1132-1137: half as large in bright light as in dim",
        ],
        Asks = "{eye} in {light} light is beyond what age and light explain",
        WhenMet =
            "{eye} in {light} light is beyond the spread of {limit} mm around what age and light explain ({detail}), by {value} mm in all. "
            + OnlyContext,
        WhenNotMet =
            "{eye} in {light} light lies within the spread of {limit} mm around what age and light explain ({detail}). "
            + OnlyContext,
        Caution =
            "The formula takes far fixation at the centre of an even field, and knows nothing of drugs or arousal.",
        Questions = ["Drugs, drops?", "Was the luminance measured in the light of this exam?"],
        FurtherLook = "Compare with the fellow eye and with earlier visits.",
    };

    public static readonly Criterion Decade = new()
    {
        Id = "size-beyond-decade",
        Kind = CriterionKind.Context,
        Reads = ["size in dim light", "age", "time in the dark", "lux", "far fixation", "state of that eye"],
        Limit = null,
        Unit = "mm",
        Sources =
        [
            "Bradley JC et al., J Refract Surg 2011;27(3):202-207 (abstract): 263 people, 2 min at 1 lux, right eye, distance fixation",
        ],
        Asks = "{eye} in the dark is beyond the range of its decade",
        WhenMet = "{eye} in the dark is beyond the range of its decade ({detail}). " + OnlyContext,
        WhenNotMet = "{eye} in the dark lies within the range of its decade ({detail}). " + OnlyContext,
        Caution = "The range is that of the people examined, right eyes only; some decades held few.",
        FurtherLook = AgeAndLight.FurtherLook,
    };

    public static IEnumerable<Finding> Evaluate(CriteriaInput input)
    {
        foreach (var eye in Sides.Both)
        {
            yield return Expected(input, eye, RoomLight.Bright);
            yield return Expected(input, eye, RoomLight.Dim);
            yield return InDecade(input, eye);
        }
    }

    private static Finding Expected(CriteriaInput input, Eye eye, RoomLight light)
    {
        var finding = Missing(AgeAndLight, eye) with { Light = light };
        if (SizeDifference.Size(input, eye, light) is not { } size)
            return FindingText.Complete(AgeAndLight, finding);
        if (input.Site.Field(light) is not { } field)
            return FindingText.Complete(AgeAndLight, finding with { Reason = FindingReason.NoLuminance });
        if (input.AgeYears is not { } age)
            return FindingText.Complete(AgeAndLight, finding with { Reason = FindingReason.NoAge });
        if (ExpectedSizeLimits.Faults(field, age).Count > 0)
            return FindingText.Complete(AgeAndLight, CannotTell(finding, FindingReason.NotCovered));
        var expected = UnifiedFormula.Expect(field, age);
        var (difference, spread) = (
            Math.Abs(size.Diameter.Millimetres - expected.Millimetres),
            input.LimitsInUse.SpreadAt(field.LuminanceCandelasPerSquareMetre)
        );
        var (verdict, reason) = SizeDifference.Beyond(difference, size.Diameter.ExpandedUncertaintyMillimetres, spread);
        if (SizeDifference.Trouble(size) is var trouble and not FindingReason.None)
            (verdict, reason) = (CriterionVerdict.CannotTell, trouble);
        var child = expected.Form == ExpectedSizeForm.Child ? ", by the more hypothetical form for children" : "";
        finding = finding with
        {
            Verdict = verdict,
            Reason = reason,
            Value = difference,
            ExpandedUncertainty = size.Diameter.ExpandedUncertaintyMillimetres,
            Limit = spread,
            Detail = $"expected {Hundredths(expected.Millimetres)} mm{child}",
        };
        return FindingText.Complete(AgeAndLight, finding, SizeDifference.Uncalibrated(input));
    }

    private static Finding InDecade(CriteriaInput input, Eye eye)
    {
        var finding = Missing(Decade, eye) with { Light = RoomLight.Dim };
        if (SizeDifference.Size(input, eye, RoomLight.Dim) is not { } size)
            return FindingText.Complete(Decade, finding);
        if (input.AgeYears is not { } age)
            return FindingText.Complete(Decade, finding with { Reason = FindingReason.NoAge });
        if (!HoldsConditions(size))
            return FindingText.Complete(Decade, finding with { Reason = FindingReason.OtherConditions });
        if (DarkNorm.Of(age) is not { } row)
            return FindingText.Complete(Decade, CannotTell(finding, FindingReason.NotCovered));
        var (value, expanded) = (size.Diameter.Millimetres, size.Diameter.ExpandedUncertaintyMillimetres);
        var beyond = Math.Max(value - row.MostMillimetres, row.LeastMillimetres - value);
        var (verdict, reason) = SizeDifference.Beyond(beyond, expanded, 0);
        if (SizeDifference.Trouble(size) is var trouble and not FindingReason.None)
            (verdict, reason) = (CriterionVerdict.CannotTell, trouble);
        finding = finding with
        {
            Verdict = verdict,
            Reason = reason,
            Value = value,
            ExpandedUncertainty = expanded,
            Detail = string.Create(
                CultureInfo.InvariantCulture,
                $"{row.FromYears} to {row.ToYears} years: mean {row.MeanMillimetres:0.00}, range {row.LeastMillimetres:0.0} to {row.MostMillimetres:0.0} mm, n = {row.People}"
            ),
        };
        return FindingText.Complete(Decade, finding, SizeDifference.Uncalibrated(input));
    }

    private static bool HoldsConditions(PupilSize size) =>
        size.Capture.DarkMilliseconds >= DarkNorm.TimeInTheDark.TotalMilliseconds
        && DarkNorm.IsOneLux(size.Capture.Millilux)
        && size.Capture.Fixation == Fixation.Far;

    private static Finding CannotTell(Finding finding, FindingReason reason) =>
        finding with
        {
            Verdict = CriterionVerdict.CannotTell,
            Reason = reason,
        };

    private static Finding Missing(Criterion criterion, Eye eye) =>
        new()
        {
            Criterion = criterion.Id,
            Verdict = CriterionVerdict.NotExamined,
            Reason = FindingReason.InputMissing,
            Eye = eye,
        };

    private static string Hundredths(double value) =>
        Math.Round((decimal)value, 2, MidpointRounding.AwayFromZero).ToString("0.00", CultureInfo.InvariantCulture);
}
