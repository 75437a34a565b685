using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration;

/// <summary>All that makes a corrected diameter uncertain, one line for each cause (JCGM 100:2008, 5.1 and G.4).</summary>
/// <param name="IndicatedMillimetres">Of which reading, in mm.</param>
/// <param name="Contributions">The contributions, independent of each other.</param>
public sealed record UncertaintyBudget(double IndicatedMillimetres, IReadOnlyList<Contribution> Contributions)
{
    /// <summary>The combined standard uncertainty, in mm.</summary>
    public double StandardUncertaintyMillimetres =>
        Math.Sqrt(Contributions.Sum(part => part.StandardUncertaintyMillimetres * part.StandardUncertaintyMillimetres));

    /// <summary>The effective degrees of freedom.</summary>
    public double DegreesOfFreedom =>
        EffectiveDegrees.Of([.. Merged().Select(part => (part.Uncertainty, part.DegreesOfFreedom))]);

    /// <summary>The expanded uncertainty for 95 %, in mm.</summary>
    public double ExpandedFor95Millimetres => Quantiles.StudentT(DegreesOfFreedom) * StandardUncertaintyMillimetres;

    /// <summary>The expanded uncertainty for the factor 2, in mm.</summary>
    public double ExpandedForFactor2Millimetres => 2 * StandardUncertaintyMillimetres;

    /// <summary>The same without one contribution, to see what it amounts to.</summary>
    /// <param name="kind">Which.</param>
    /// <returns>The smaller budget.</returns>
    public UncertaintyBudget Without(ContributionKind kind) =>
        this with
        {
            Contributions = [.. Contributions.Where(part => part.Kind != kind)],
        };

    // Two contributions that come from one and the same scatter share its degrees of freedom: as one they enter the formula, which
    // wants independent ones.
    private IEnumerable<(double Uncertainty, double DegreesOfFreedom)> Merged() =>
        Contributions
            .GroupBy(part => (part.Type, part.DegreesOfFreedom))
            .Select(alike =>
                (
                    Math.Sqrt(
                        alike.Sum(part => part.StandardUncertaintyMillimetres * part.StandardUncertaintyMillimetres)
                    ),
                    alike.Key.DegreesOfFreedom
                )
            );
}
