using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration;

/// <summary>What readings must be so that a line through them means something.</summary>
public static class CalibrationReadings
{
    /// <summary>The fewest readings: with two the line meets both, and nothing is left to judge it by.</summary>
    public const int Fewest = 3;

    /// <summary>
    /// Readings of one disc lie closer together than this share of the whole range, two discs farther apart than
    /// <see cref="GapBetweenDiscs"/>. Our own choice; it needs no names of discs.
    /// </summary>
    public const double SpreadOfOneDisc = 0.02;

    /// <summary>Readings farther apart than this share of the whole range surely belong to different discs.</summary>
    public const double GapBetweenDiscs = 0.2;

    /// <summary>Refuses readings through which no line can be drawn that could be wrong.</summary>
    /// <param name="points">The readings.</param>
    /// <exception cref="StatisticsRefusedException">
    /// Fewer than three; something that is no finite number; all at one place; all at two places.
    /// </exception>
    public static void Check(IReadOnlyList<CalibrationPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Any(point => !double.IsFinite(point.X) || !double.IsFinite(point.Y)))
            throw new StatisticsRefusedException(StatisticsFault.NotANumber, "A reading is no finite number.");
        double[] sorted = [.. points.Select(point => point.X).Order()];
        if (sorted.Length < Fewest)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                $"A line with an uncertainty needs readings of at least {Fewest} discs; there are {sorted.Length} readings."
            );
        }

        if (sorted[^1] - sorted[0] <= Math.Max(Math.Abs(sorted[0]), Math.Abs(sorted[^1])) * 1e-12)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.NoVariation,
                "All readings are at one place, so they tell nothing about a slope: one disc only, or a scale that is stuck?"
            );
        }

        if (AreAtTwoPlaces(sorted))
        {
            throw new StatisticsRefusedException(
                StatisticsFault.TwoPlacesOnly,
                "All readings are of two discs only. A line meets any two discs, so nothing would show that the scale "
                    + "is not straight."
            );
        }
    }

    private static bool AreAtTwoPlaces(double[] sorted)
    {
        var range = sorted[^1] - sorted[0];
        var gaps = sorted.Zip(sorted.Skip(1), (low, high) => high - low).ToArray();
        var widest = Array.IndexOf(gaps, gaps.Max());
        return gaps[widest] > GapBetweenDiscs * range
            && sorted[widest] - sorted[0] < SpreadOfOneDisc * range
            && sorted[^1] - sorted[widest + 1] < SpreadOfOneDisc * range;
    }
}
