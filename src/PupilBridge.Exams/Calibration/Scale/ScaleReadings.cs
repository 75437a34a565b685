using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Calibration.Scale;

/// <summary>The readings of one scale, looked at and gathered by disc.</summary>
public static class ScaleReadings
{
    /// <summary>The fewest readings of each disc.</summary>
    public const int FewestRepeats = 2;

    /// <summary>
    /// From the smallest to the largest disc a scale must move by at least this share of the true way. One that does less needs repair,
    /// not a correction. Our own choice.
    /// </summary>
    public const double LeastMoved = 0.5;

    /// <summary>Gathers and checks.</summary>
    /// <param name="readings">The readings that count, in any order.</param>
    /// <returns>The means, by the discs' diameters.</returns>
    /// <exception cref="StatisticsRefusedException">They cannot calibrate a scale.</exception>
    public static IReadOnlyList<DiscMean> Gather(IReadOnlyList<DiscReading> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        DiscMean[] means =
        [
            .. readings
                .GroupBy(reading => reading.Disc)
                .OrderBy(alike => alike.Key.DiameterMillimetres)
                .Select(alike => new DiscMean(
                    alike.Key,
                    Sample.Of([.. alike.Select(reading => reading.IndicatedMillimetres)])
                )),
        ];
        if (means.Select(mean => mean.Disc.DiameterMillimetres).Distinct().Count() < DiscSetCheck.FewestDiscs)
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                $"Readings of at least {DiscSetCheck.FewestDiscs} discs of different sizes are needed; there are {means.Length}. "
                    + "Measure the other discs of the set."
            );
        if (means.FirstOrDefault(mean => mean.Indicated.Count < FewestRepeats) is { } rare)
            throw new StatisticsRefusedException(
                StatisticsFault.TooFewRepeats,
                $"Disc {rare.Disc.Name} was read {rare.Indicated.Count} time; at least {FewestRepeats} are needed. Measure it again."
            );
        CheckOrder(means);
        return means;
    }

    /// <summary>Whether every disc lies within a scale's travel.</summary>
    /// <param name="set">The discs.</param>
    /// <param name="range">How far the scale goes: the widest difference that it can show.</param>
    /// <exception cref="StatisticsRefusedException">A disc does not.</exception>
    public static void CheckRange(DiscSet set, Micrometres range)
    {
        ArgumentNullException.ThrowIfNull(set);
        if (set.Discs.FirstOrDefault(disc => disc.DiameterMillimetres > range.Millimetres) is { } wide)
            throw new StatisticsRefusedException(
                StatisticsFault.OutOfRange,
                $"Disc {wide.Name} of {wide.DiameterMillimetres} mm is wider than the scale goes ({range.Millimetres} mm). Leave it out "
                    + "of the run."
            );
    }

    private static void CheckOrder(DiscMean[] means)
    {
        var (first, last) = (means[0], means[^1]);
        var certified = last.Disc.DiameterMillimetres - first.Disc.DiameterMillimetres;
        if (last.Indicated.Mean - first.Indicated.Mean < LeastMoved * certified)
            throw new StatisticsRefusedException(
                StatisticsFault.NoVariation,
                $"The discs from {first.Disc.DiameterMillimetres} to {last.Disc.DiameterMillimetres} mm read from "
                    + $"{first.Indicated.Mean:0.000} to {last.Indicated.Mean:0.000} mm: the scale is stuck, or one disc was read all the "
                    + "time. Look after the scale; what was measured is kept."
            );
        foreach (var (small, large) in means.Zip(means.Skip(1)))
            if (
                large.Indicated.Mean <= small.Indicated.Mean
                && large.Disc.DiameterMillimetres > small.Disc.DiameterMillimetres
            )
                throw new StatisticsRefusedException(
                    StatisticsFault.OutOfOrder,
                    $"Disc {large.Disc.Name} reads no larger than disc {small.Disc.Name}, which is smaller. Were they mixed up? Set those "
                        + "readings aside with the reason, and measure both again."
                );
    }
}
