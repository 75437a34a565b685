namespace PupilBridge.Exams.Diameters;

/// <summary>How a difference stands to a limit, given its uncertainty.</summary>
public enum LimitVerdict
{
    /// <summary>Surely at most the limit.</summary>
    Within = 1,

    /// <summary>Surely more than the limit.</summary>
    Above = 2,

    /// <summary>The uncertainty reaches over the limit.</summary>
    CannotTell = 3,
}

/// <summary>Two values side by side.</summary>
public static class Comparison
{
    /// <summary>
    /// Whether two diameters differ by more than a limit. What their errors share cancels; the verdict is sure where the expanded
    /// uncertainty of the difference does not reach over the limit.
    /// </summary>
    /// <param name="one">One diameter.</param>
    /// <param name="other">The other.</param>
    /// <param name="limitMillimetres">The limit of the difference's amount, in mm.</param>
    /// <returns>The verdict.</returns>
    public static LimitVerdict Against(Diameter one, Diameter other, double limitMillimetres)
    {
        var difference = one.Millimetres - other.Millimetres;
        return Against(difference, ExpandedUncertaintyOfDifference(one, other), limitMillimetres);
    }

    /// <summary>Whether a difference is more than a limit, all three in one unit.</summary>
    /// <param name="difference">The difference, to either side.</param>
    /// <param name="expanded">Its expanded uncertainty, 0 or more.</param>
    /// <param name="limit">The limit of its amount.</param>
    /// <returns>The verdict.</returns>
    public static LimitVerdict Against(double difference, double expanded, double limit)
    {
        // Sums of decimals are not exact in binary; a nanometre, or a millionth of a log unit, decides nothing.
        const double nothing = 1e-6;
        var size = Math.Abs(difference);
        if (size + expanded <= limit + nothing)
            return LimitVerdict.Within;
        return size - expanded > limit + nothing ? LimitVerdict.Above : LimitVerdict.CannotTell;
    }

    /// <summary>The expanded uncertainty of the difference of two diameters, in mm.</summary>
    /// <param name="one">One diameter.</param>
    /// <param name="other">The other.</param>
    /// <returns>The uncertainty for the factor <see cref="Diameter.CoverageFactor"/>.</returns>
    public static double ExpandedUncertaintyOfDifference(Diameter one, Diameter other) =>
        ExpandedUncertaintyOf((1, one), (-1, other));

    /// <summary>
    /// The expanded uncertainty of a sum of diameters, each taken with its sign, in mm: u² = Σ cᵢ²uᵢ² + 2 Σ cᵢcⱼ u(i,j), so that what two
    /// of opposite signs share cancels (JCGM 100:2008, 5.2.2).
    /// </summary>
    /// <param name="terms">The diameters, each with the number by which it is multiplied.</param>
    /// <returns>The uncertainty for the factor <see cref="Diameter.CoverageFactor"/>.</returns>
    public static double ExpandedUncertaintyOf(params ReadOnlySpan<(int Factor, Diameter Diameter)> terms)
    {
        var sum = 0.0;
        for (var i = 0; i < terms.Length; i++)
        {
            var (factor, diameter) = terms[i];
            sum += Square(factor * diameter.StandardUncertaintyMillimetres);
            for (var j = 0; j < i; j++)
                sum += 2 * factor * terms[j].Factor * Covariance(diameter, terms[j].Diameter);
        }

        return Diameter.CoverageFactor * Math.Sqrt(Math.Max(0, sum));
    }

    private static double Covariance(Diameter one, Diameter other) =>
        one.Shared is { } here && other.Shared is { } there
            ? here.By.CovarianceWith(here.RawMillimetres, there.By, there.RawMillimetres)
            : 0;

    private static double Square(double value) => value * value;
}
