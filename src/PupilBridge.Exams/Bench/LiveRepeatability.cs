using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench;

/// <summary>The settings of one eye of one person under one light, one after the other, with nothing changed in between.</summary>
/// <param name="Eye">Which eye.</param>
/// <param name="IsDim">Whether the room was dim; bright otherwise.</param>
/// <param name="Millimetres">The diameters, in mm.</param>
public sealed record LiveSettings(Eye Eye, bool IsDim, IReadOnlyList<double> Millimetres);

/// <summary>
/// How well a person sets the two edges of a living pupil again: what no disc can tell. It is the standard deviation of settings within
/// one eye and light, pooled over all of them.
/// </summary>
/// <param name="WithinMillimetres">The standard deviation, in mm.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom: settings − series.</param>
public sealed record LiveRepeatability(double WithinMillimetres, int DegreesOfFreedom)
{
    /// <summary>The fewest degrees of freedom for which a number is given: below, its own interval is wider than the number. Ours: 8.</summary>
    public const int FewestDegrees = 8;

    /// <summary>
    /// The coefficient of repeatability, in mm: two settings of one pupil differ by less in 95 % of cases; 1.96·√2 times the deviation
    /// (Bland JM, Altman DG, Lancet 1986;i:307-310).
    /// </summary>
    public double CoefficientMillimetres => 1.96 * Math.Sqrt(2) * WithinMillimetres;

    /// <summary>The 95 % interval of the deviation, in mm, from χ².</summary>
    public Interval Interval =>
        new(
            WithinMillimetres
                * Math.Sqrt(DegreesOfFreedom / Quantiles.ChiSquared(DegreesOfFreedom, (1 + Quantiles.Level) / 2)),
            WithinMillimetres
                * Math.Sqrt(DegreesOfFreedom / Quantiles.ChiSquared(DegreesOfFreedom, (1 - Quantiles.Level) / 2))
        );

    /// <summary>Computes it.</summary>
    /// <param name="series">Settings, those of each eye and light together; both eyes and both lights must be there.</param>
    /// <returns>The repeatability.</returns>
    /// <exception cref="StatisticsRefusedException">
    /// An eye or light is missing; too few settings; one that is no number; every setting the same.
    /// </exception>
    public static LiveRepeatability Of(IReadOnlyList<LiveSettings> series)
    {
        ArgumentNullException.ThrowIfNull(series);
        if (series.Any(s => s.Millimetres.Any(mm => !(mm > 0 && double.IsFinite(mm)))))
            throw new StatisticsRefusedException(StatisticsFault.NotANumber, "A setting is no diameter above 0.");
        var repeated = series.Where(s => s.Millimetres.Count > 1).ToArray();
        if (repeated.Select(s => (s.Eye, s.IsDim)).Distinct().Count() < 4)
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                "Repeated settings of both eyes in bright and in dim light are needed: a wide pupil is unrestful in another way than a small "
                    + "one. Measure what is missing."
            );
        var samples = repeated.Select(s => Sample.Of(s.Millimetres)).ToArray();
        var degrees = samples.Sum(sample => sample.Count - 1);
        if (degrees < FewestDegrees)
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                $"Only {degrees} settings are repeats; at least {FewestDegrees} are needed, that is three settings of each eye and light."
            );
        var within = Math.Sqrt(samples.Sum(sample => sample.SumOfSquares) / degrees);
        return within > 0
            ? new(within, degrees)
            : throw new StatisticsRefusedException(
                StatisticsFault.NoVariation,
                "Every setting is the same: a living pupil is not, so the scale was likely not moved in between."
            );
    }
}
