using OxyPlot.Axes;
using PupilBridge.Exchange.History;

namespace PupilBridge.Exchange.Tests.History;

public sealed class PlotSpanTests
{
    [Fact]
    public void A_single_visit_stands_on_an_axis_of_weeks_not_of_a_century()
    {
        var span = PlotSpan.Of(Visits.History(Visits.Morning), TimeProvider.System);
        Assert.Equal(40, span.LastDay - span.FirstDay, 6);
    }

    [Fact]
    public void All_bars_lie_within_and_right_and_left_stand_apart()
    {
        var span = PlotSpan.Of(Visits.History(Visits.Morning, Visits.Morning.AddDays(-1000)), TimeProvider.System);
        Assert.Equal((3, 7), (span.FromMillimetres, span.ToMillimetres));
        var right = span.Place(Visits.Morning, "OD", TimeProvider.System);
        var left = span.Place(Visits.Morning, "OS", TimeProvider.System);
        Assert.InRange(left - right, 0.001 * (span.LastDay - span.FirstDay), 0.02 * (span.LastDay - span.FirstDay));
        Assert.InRange(right, span.FirstDay, span.LastDay);
        Assert.Equal(
            DateTimeAxis.ToDouble(TimeZoneInfo.ConvertTime(Visits.Morning, TimeProvider.System.LocalTimeZone).DateTime),
            (left + right) / 2,
            6
        );
    }

    [Fact]
    public void No_size_at_all_still_gives_a_plot() =>
        Assert.InRange(PlotSpan.Of(Visits.History(), TimeProvider.System).ToMillimetres, 1, 20);
}
