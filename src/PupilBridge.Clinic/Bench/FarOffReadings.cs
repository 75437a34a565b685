using PupilBridge.Exams.Bench.Runs;

namespace PupilBridge.Clinic.Bench;

/// <summary>
/// Which readings a person should look at: those farther from the median of their disc and scale than 3.5 times the median distance,
/// scaled to a standard deviation (modified z score of Iglewicz and Hoaglin 1993, in NIST/SEMATECH e-Handbook of Statistical Methods,
/// 1.3.5.17; from memory). It points and does nothing: only a person sets a reading aside, with a reason.
/// </summary>
internal static class FarOffReadings
{
    /// <summary>The score beyond which a reading is pointed out.</summary>
    public const double Score = 3.5;

    /// <summary>With fewer readings nothing can be said to lie far from the others.</summary>
    public const int Fewest = 4;

    private const double Scale = 0.6745;

    /// <summary>The entries of readings that lie far off.</summary>
    public static IReadOnlySet<long> Of(RunProgress progress) =>
        progress
            .Counting.GroupBy(reading => (reading.Capture.Eye, reading.Step?.Disc, reading.Step?.Light))
            .SelectMany(alike => OfOne([.. alike]))
            .ToHashSet();

    private static IEnumerable<long> OfOne(RunReading[] readings)
    {
        if (readings.Length < Fewest)
        {
            return [];
        }

        var middle = Median([.. readings.Select(reading => reading.IndicatedMillimetres)]);
        // A scale that hardly scatters must not make every step of it far off.
        var step = readings.Max(reading => reading.Capture.Resolution.Millimetres);
        var spread = Math.Max(
            Median([.. readings.Select(reading => Math.Abs(reading.IndicatedMillimetres - middle))]),
            step
        );
        return spread > 0
            ? readings
                .Where(reading => Scale * Math.Abs(reading.IndicatedMillimetres - middle) / spread > Score)
                .Select(reading => reading.Capture.CompletedBy.Value)
            : [];
    }

    private static double Median(double[] values)
    {
        Array.Sort(values);
        var half = values.Length / 2;
        return values.Length % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
    }
}
