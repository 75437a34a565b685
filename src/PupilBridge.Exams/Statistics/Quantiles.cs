using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace PupilBridge.Exams.Statistics;

/// <summary>The factors between a standard uncertainty and an interval.</summary>
public static class Quantiles
{
    /// <summary>The level that intervals are stated for.</summary>
    public const double Level = 0.95;

    /// <summary>From here on the expansion in powers of 1/ν is exact to all digits; the integral below loses some.</summary>
    private const double ManyDegrees = 1e4;

    /// <summary>From here on an F ratio is a chi-squared sum over its degrees of freedom, to nine digits.</summary>
    private const double NearlyInfinite = 1e9;

    /// <summary>
    /// The two-sided factor of Student's t, as tabulated in JCGM 100:2008, Table G.2. Degrees of freedom need not be whole:
    /// effective ones are used as they come (G.6.4 allows to interpolate as well as to truncate).
    /// </summary>
    /// <param name="degreesOfFreedom">More than 0; infinity gives the normal distribution's factor.</param>
    /// <param name="level">The probability inside, between 0 and 1.</param>
    /// <returns>The factor t, such that −t to t holds that probability.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Degrees of freedom or level make no sense.</exception>
    public static double StudentT(double degreesOfFreedom, double level = Level)
    {
        if (!(degreesOfFreedom > 0))
            throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "More than 0 is needed.");
        if (level is not (> 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(level), level, "A probability between 0 and 1 is needed.");
        if (degreesOfFreedom >= ManyDegrees)
            return Expanded(degreesOfFreedom, Normal.InvCDF(0, 1, (1 + level) / 2));
        return WhereFallsTo(1 - level, t => OutsideOfT(degreesOfFreedom, t));
    }

    /// <summary>Abramowitz and Stegun 26.7.5, from memory; it meets the integral at <see cref="ManyDegrees"/>.</summary>
    private static double Expanded(double degreesOfFreedom, double z)
    {
        var square = z * z;
        var first = z * (square + 1) / 4;
        var second = z * ((((5 * square) + 16) * square) + 3) / 96;
        var third = z * ((((((3 * square) + 19) * square) + 17) * square) - 15) / 384;
        return z + ((first + ((second + (third / degreesOfFreedom)) / degreesOfFreedom)) / degreesOfFreedom);
    }

    /// <summary>The probability that lies beyond −t and t.</summary>
    private static double OutsideOfT(double degreesOfFreedom, double t) =>
        SpecialFunctions.BetaRegularized(degreesOfFreedom / 2, 0.5, degreesOfFreedom / (degreesOfFreedom + (t * t)));

    /// <summary>
    /// Where a falling probability reaches a level: doubles, then halves the interval until its ends are neighbours. The
    /// library's own inverses stop at eight digits, and at ratios of 1000; a published interval is checked to more.
    /// </summary>
    private static double WhereFallsTo(double level, Func<double, double> probability)
    {
        var above = 1.0;
        while (probability(above) > level && double.IsFinite(above))
            above *= 2;
        var below = 0.0;
        while (true)
        {
            var middle = below + ((above - below) / 2);
            if (middle <= below || middle >= above)
                return middle;
            if (probability(middle) > level)
                below = middle;
            else
                above = middle;
        }
    }

    /// <summary>The value that an F ratio stays below with a probability.</summary>
    /// <param name="above">Degrees of freedom of the numerator.</param>
    /// <param name="below">Degrees of freedom of the denominator.</param>
    /// <param name="probability">Between 0 and 1.</param>
    /// <returns>The quantile.</returns>
    public static double F(double above, double below, double probability) =>
        WhereFallsTo(1 - probability, ratio => ChanceOfF(above, below, ratio));

    /// <summary>The probability that chance alone gives an F ratio this large or larger.</summary>
    /// <param name="above">Degrees of freedom of the numerator.</param>
    /// <param name="below">Degrees of freedom of the denominator; infinite where it is known outright.</param>
    /// <param name="ratio">The ratio, 0 or more.</param>
    /// <returns>Between 0 and 1.</returns>
    public static double ChanceOfF(double above, double below, double ratio) =>
        double.IsPositiveInfinity(ratio) ? 0
        : below >= NearlyInfinite ? SpecialFunctions.GammaUpperRegularized(above / 2, above * ratio / 2)
        : SpecialFunctions.BetaRegularized(below / 2, above / 2, below / (below + (above * ratio)));

    /// <summary>The value that a chi-squared sum stays below with a probability.</summary>
    /// <param name="degreesOfFreedom">More than 0.</param>
    /// <param name="probability">Between 0 and 1.</param>
    /// <returns>The quantile.</returns>
    public static double ChiSquared(double degreesOfFreedom, double probability) =>
        WhereFallsTo(1 - probability, sum => SpecialFunctions.GammaUpperRegularized(degreesOfFreedom / 2, sum / 2));
}
