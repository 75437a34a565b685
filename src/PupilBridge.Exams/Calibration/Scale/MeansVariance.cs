namespace PupilBridge.Exams.Calibration.Scale;

/// <summary>
/// How the variances of single disc means add up to those of the line through them. Each mean weighs the same, whatever its variance:
/// the line then depends on nothing that was merely assumed.
/// </summary>
internal sealed class MeansVariance
{
    private readonly double[] away;
    private readonly double squares;

    /// <summary>For means at these places.</summary>
    /// <param name="x">The mean indicated diameters, in mm.</param>
    public MeansVariance(IReadOnlyList<double> x)
    {
        Origin = x.Average();
        away = [.. x.Select(at => at - Origin)];
        squares = away.Sum(a => a * a);
    }

    /// <summary>The mean of all places, at which the line is stated.</summary>
    public double Origin { get; }

    /// <summary>The line's variance.</summary>
    /// <param name="ofMean">The variance of each mean, in mm², in the same order; independent of each other.</param>
    public LineVariance OfLine(IReadOnlyList<double> ofMean) =>
        new(
            ofMean.Sum() / (away.Length * away.Length),
            away.Zip(ofMean, (a, v) => a * a * v).Sum() / (squares * squares),
            away.Zip(ofMean, (a, v) => a * v).Sum() / (away.Length * squares)
        );

    /// <summary>The mean square of the residuals of the means that is to be expected, with n − 2 degrees of freedom.</summary>
    /// <param name="ofMean">The variance of each mean, in mm².</param>
    public double OfResiduals(IReadOnlyList<double> ofMean) =>
        away.Zip(ofMean, (a, v) => v * (1 - (1.0 / away.Length) - (a * a / squares))).Sum() / (away.Length - 2);
}
