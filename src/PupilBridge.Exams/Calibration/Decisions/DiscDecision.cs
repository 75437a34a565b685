using PupilBridge.Exams.Calibration.Scale;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration.Decisions;

/// <summary>The error of one scale at one disc, and what is said of it.</summary>
/// <param name="Mean">The disc and its readings.</param>
/// <param name="ErrorMillimetres">Mean indicated minus certified diameter, in mm, before any correction.</param>
/// <param name="ExpandedFor95Millimetres">Its expanded uncertainty for 95 %, in mm.</param>
/// <param name="Statement">What the rule says.</param>
public sealed record DiscDecision(
    DiscMean Mean,
    double ErrorMillimetres,
    double ExpandedFor95Millimetres,
    ConformityStatement Statement
);

/// <summary>What the rule says of a scale.</summary>
public static class ScaleDecision
{
    /// <summary>Holds the error at every disc against the limit.</summary>
    /// <param name="fit">The scale's calibration.</param>
    /// <param name="rule">The rule agreed beforehand.</param>
    /// <returns>One for each disc, by their diameters.</returns>
    public static IReadOnlyList<DiscDecision> Of(ScaleFit fit, DecisionRule rule)
    {
        ArgumentNullException.ThrowIfNull(fit);
        ArgumentNullException.ThrowIfNull(rule);
        return [.. fit.Means.Select(mean => Of(fit, mean, rule))];
    }

    /// <summary>The worst of all statements, which is the scale's.</summary>
    /// <param name="discs">Those of its discs, at least one.</param>
    /// <returns>The statement.</returns>
    public static ConformityStatement Worst(IReadOnlyList<DiscDecision> discs) => discs.Max(disc => disc.Statement);

    private static DiscDecision Of(ScaleFit fit, DiscMean mean, DecisionRule rule)
    {
        var ofMean = fit.RepeatabilityMillimetres / Math.Sqrt(mean.Indicated.Count);
        var steps = Math.Sqrt(fit.HiddenVariance);
        var (own, common) = (mean.Disc.StandardUncertaintyMillimetres, fit.Known.Common);
        var combined = Math.Sqrt(
            (ofMean * ofMean)
                + (steps * steps)
                + (own * own)
                + (common.StandardUncertainty * common.StandardUncertainty)
        );
        var degrees = EffectiveDegrees.Of(
            (ofMean, fit.DegreesOfRepeats),
            (double.Hypot(steps, own), double.PositiveInfinity),
            (common.StandardUncertainty, common.DegreesOfFreedom)
        );
        var expanded = Quantiles.StudentT(degrees) * combined;
        var error = -mean.CorrectionMillimetres;
        return new(mean, error, expanded, rule.Decide(error, expanded));
    }
}
