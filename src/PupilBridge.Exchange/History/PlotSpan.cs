using OxyPlot.Axes;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Exchange.History;

/// <summary>From where to where a plot reaches.</summary>
/// <param name="FirstDay">The left end, in the days of a date axis.</param>
/// <param name="LastDay">The right end.</param>
/// <param name="FromMillimetres">The lower end.</param>
/// <param name="ToMillimetres">The upper end.</param>
internal readonly record struct PlotSpan(double FirstDay, double LastDay, double FromMillimetres, double ToMillimetres)
{
    /// <summary>At least so many days stand before the first visit and after the last, so that a single one stands on a readable axis.</summary>
    private const double LeastMarginDays = 20;

    /// <summary>What part of the width right and left eye of one visit stand apart, so that equal sizes do not cover each other.</summary>
    private const double Apart = 0.004;

    /// <summary>The span of all visits that have sizes: all bars from end to end in whole millimetres, so that none is cut off.</summary>
    /// <param name="history">The visits.</param>
    /// <param name="time">The clinic's clock, with its time zone.</param>
    public static PlotSpan Of(PatientHistory history, TimeProvider time)
    {
        var measured = history.Visits.Where(visit => visit.Sizes.Count > 0).ToList();
        if (measured.Count == 0)
        {
            return new PlotSpan(
                Day(time.GetUtcNow(), time) - LeastMarginDays,
                Day(time.GetUtcNow(), time) + LeastMarginDays,
                2,
                8
            );
        }

        var days = measured.Select(visit => Day(visit.Exam.OpenedAt, time)).ToList();
        var sizes = measured.SelectMany(visit => visit.Sizes).ToList();
        var margin = Math.Max(LeastMarginDays, 0.05 * (days.Max() - days.Min()));
        return new PlotSpan(
            days.Min() - margin,
            days.Max() + margin,
            Math.Floor(sizes.Min(size => size.Millimetres - size.UncertaintyMillimetres)),
            Math.Ceiling(sizes.Max(size => size.Millimetres + size.UncertaintyMillimetres))
        );
    }

    /// <summary>Where a visit of one eye stands.</summary>
    /// <param name="at">When the visit was.</param>
    /// <param name="eye"><c>OD</c> or <c>OS</c>.</param>
    /// <param name="time">The clinic's clock, with its time zone.</param>
    public double Place(DateTimeOffset at, string eye, TimeProvider time) =>
        Day(at, time) + ((LastDay - FirstDay) * (eye == "OD" ? -Apart : Apart));

    private static double Day(DateTimeOffset at, TimeProvider time) =>
        DateTimeAxis.ToDouble(TimeZoneInfo.ConvertTime(at, time.LocalTimeZone).DateTime);
}
