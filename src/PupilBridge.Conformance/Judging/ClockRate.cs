namespace PupilBridge.Conformance.Judging;

/// <summary>
/// How fast one clock runs against another, from readings that arrive late by varying delays. The bounds are hard: they hold for
/// any delays that lie within the scatter that was seen.
/// </summary>
internal static class ClockRate
{
    /// <summary>A tick is a whole millisecond, at either end.</summary>
    private const double TickSeconds = 0.001;

    /// <summary>The difference in rate.</summary>
    /// <param name="readings">Arrival by the host's clock and the instrument's tick, both in seconds, in order of arrival.</param>
    /// <returns>By how many millionths the instrument's clock runs fast, and how far that may be off.</returns>
    public static (double Millionths, double Unsure) Of(IReadOnlyList<(double Arrived, double Ticked)> readings)
    {
        var (first, last) = (readings[0], readings[^1]);
        var length = last.Arrived - first.Arrived;
        if (length <= 0)
        {
            return (0, double.PositiveInfinity);
        }

        var (slope, residuals) = Fit(readings);
        var scatter = residuals.Max() - residuals.Min() + TickSeconds;
        return ((slope - 1) * 1e6, scatter / length * 1e6);
    }

    /// <summary>How far each tick lies above the line through all of them: what arrived late lies below it.</summary>
    /// <param name="readings">As for <see cref="Of"/>, at different times.</param>
    /// <returns>Seconds, in the same order.</returns>
    public static IReadOnlyList<double> Residuals(IReadOnlyList<(double Arrived, double Ticked)> readings) =>
        Fit(readings).Residuals;

    private static (double Slope, List<double> Residuals) Fit(IReadOnlyList<(double Arrived, double Ticked)> readings)
    {
        var (x, y) = (readings.Average(r => r.Arrived), readings.Average(r => r.Ticked));
        var slope =
            readings.Sum(r => (r.Arrived - x) * (r.Ticked - y)) / readings.Sum(r => (r.Arrived - x) * (r.Arrived - x));
        return (slope, readings.Select(r => r.Ticked - y - (slope * (r.Arrived - x))).ToList());
    }
}
