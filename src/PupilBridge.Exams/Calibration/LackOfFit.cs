using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration;

/// <summary>
/// Whether a scale is straight: how far the discs' means lie from the line, against how far repeats of one disc scatter. The
/// usual analysis of variance, on the residuals, so that repeats need not show the very same x.
/// </summary>
/// <param name="OfMeans">Mean square of the discs' means about the line.</param>
/// <param name="DegreesOfMeans">Discs − 2.</param>
/// <param name="OfRepeats">Mean square of repeats about their disc's mean.</param>
/// <param name="DegreesOfRepeats">Readings − discs.</param>
public sealed record LackOfFit(double OfMeans, int DegreesOfMeans, double OfRepeats, int DegreesOfRepeats)
{
    /// <summary>The ratio of the two; near 1 for a straight scale, infinite where repeats do not scatter at all.</summary>
    public double F => OfMeans / OfRepeats;

    /// <summary>The probability that a straight scale gives a ratio as large.</summary>
    public double ChanceOfF => Quantiles.ChanceOfF(DegreesOfMeans, DegreesOfRepeats, F);

    /// <summary>The repeatability about the line: the standard deviation of repeats of one disc, pooled over all.</summary>
    public double Repeatability => Math.Sqrt(OfRepeats);

    /// <summary>Compares means and repeats.</summary>
    /// <param name="fit">The line through all readings.</param>
    /// <param name="discs">The same readings, those of each disc together.</param>
    /// <returns>The two mean squares.</returns>
    /// <exception cref="StatisticsRefusedException">Fewer than three discs, or no disc read twice.</exception>
    public static LackOfFit Of(LineFit fit, IReadOnlyList<IReadOnlyList<CalibrationPoint>> discs)
    {
        ArgumentNullException.ThrowIfNull(fit);
        ArgumentNullException.ThrowIfNull(discs);
        var count = discs.Sum(disc => disc.Count);
        if (discs.Count < CalibrationReadings.Fewest || count <= discs.Count)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                $"At least {CalibrationReadings.Fewest} discs with repeats are needed; there are {discs.Count} discs with "
                    + $"{count} readings."
            );
        }

        Sample[] residuals = [.. discs.Select(disc => Sample.Of([.. disc.Select(fit.ResidualOf)]))];
        var degrees = (Means: discs.Count - 2, Repeats: count - discs.Count);
        return new(
            residuals.Sum(disc => disc.Count * disc.Mean * disc.Mean) / degrees.Means,
            degrees.Means,
            residuals.Sum(disc => disc.SumOfSquares) / degrees.Repeats,
            degrees.Repeats
        );
    }
}
