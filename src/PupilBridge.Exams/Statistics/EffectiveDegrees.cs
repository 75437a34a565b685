namespace PupilBridge.Exams.Statistics;

/// <summary>
/// The degrees of freedom of a combined uncertainty, by Welch and Satterthwaite (JCGM 100:2008, G.4.1):
/// ν = u⁴ / Σ(uᵢ⁴/νᵢ), with u² = Σuᵢ².
/// </summary>
public static class EffectiveDegrees
{
    /// <summary>Combines independent contributions.</summary>
    /// <param name="contributions">
    /// Each with its standard uncertainty, 0 or more, and its degrees of freedom, more than 0, infinite where it is known
    /// outright.
    /// </param>
    /// <returns>More than 0; infinite where nothing that counts has finite degrees of freedom.</returns>
    public static double Of(params ReadOnlySpan<(double Uncertainty, double DegreesOfFreedom)> contributions)
    {
        var largest = 0.0;
        foreach (var (uncertainty, _) in contributions)
            largest = Math.Max(largest, uncertainty);
        if (largest <= 0)
            return double.PositiveInfinity;

        // Shares of the largest: fourth powers of small numbers would vanish.
        var (squares, fourths) = (0.0, 0.0);
        foreach (var (uncertainty, degreesOfFreedom) in contributions)
        {
            var share = uncertainty / largest;
            squares += share * share;
            fourths += share * share * share * share / degreesOfFreedom;
        }

        return fourths > 0 ? squares * squares / fourths : double.PositiveInfinity;
    }
}
