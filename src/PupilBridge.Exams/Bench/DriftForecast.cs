using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Bench;

/// <summary>Whether a history is on its way to a limit: the straight line through its last points, drawn on.</summary>
public static class DriftForecast
{
    /// <summary>So many last points make the line. Ours: 8.</summary>
    public const int LastPoints = 8;

    /// <summary>
    /// Whether the line through the last points reaches a limit soon. A line that could as well be level, at 95 %, reaches nothing.
    /// </summary>
    /// <param name="points">The history, in the order of its days.</param>
    /// <param name="limit">The largest value allowed to either side.</param>
    /// <param name="horizonDays">How many days after the last point count as soon.</param>
    /// <returns>Whether it does.</returns>
    public static bool Reaches(IReadOnlyList<DriftPoint> points, double limit, int horizonDays)
    {
        ArgumentNullException.ThrowIfNull(points);
        var last = points.Skip(Math.Max(0, points.Count - LastPoints)).ToArray();
        if (last.Select(point => point.Day).Distinct().Count() < CalibrationReadings.Fewest)
            return false;
        var line = LineFit.Of([.. last.Select(point => new CalibrationPoint(point.Day.DayNumber, point.Value))]);
        var isLevel = Math.Abs(line.Slope) <= Quantiles.StudentT(line.DegreesOfFreedom) * line.SlopeUncertainty;
        return !isLevel && Math.Abs(line.At(last[^1].Day.DayNumber + horizonDays)) > limit;
    }
}
