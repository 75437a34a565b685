using OxyPlot.Axes;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Plots;
using PupilBridge.Console.Tests.Pages.Support;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Tests.Plots;

public sealed class PlotSpanTests
{
    private static readonly HouseTime Times = new(TimeProvider.System);

    [Fact]
    public void A_single_visit_stands_on_an_axis_of_weeks_not_of_a_century()
    {
        var span = PlotSpan.Of(History(SampleExams.Morning), Times);
        Assert.Equal(40, span.LastDay - span.FirstDay, 6);
    }

    [Fact]
    public void All_bars_lie_within_and_right_and_left_stand_apart()
    {
        var span = PlotSpan.Of(History(SampleExams.Morning, SampleExams.Morning.AddDays(-1000)), Times);
        Assert.Equal((3, 7), (span.FromMillimetres, span.ToMillimetres));
        var right = span.Place(SampleExams.Morning, "OD", Times);
        var left = span.Place(SampleExams.Morning, "OS", Times);
        Assert.InRange(left - right, 0.001 * (span.LastDay - span.FirstDay), 0.02 * (span.LastDay - span.FirstDay));
        Assert.InRange(right, span.FirstDay, span.LastDay);
        Assert.Equal(DateTimeAxis.ToDouble(Times.Local(SampleExams.Morning).DateTime), (left + right) / 2, 6);
    }

    [Fact]
    public void No_size_at_all_still_gives_a_plot() =>
        Assert.InRange(PlotSpan.Of(History(), Times).ToMillimetres, 1, 20);

    private static PatientHistory History(params DateTimeOffset[] visits) =>
        new(
            new PatientView("Q-1001", null, null),
            [
                .. visits.Select(at => new VisitView(
                    SampleExams.Summary(1, at: at),
                    [SampleExams.Size("OD", "bright", 3.5, 1, 0), SampleExams.Size("OS", "dim", 6.1, 2, 0)],
                    []
                )),
            ]
        );
}
