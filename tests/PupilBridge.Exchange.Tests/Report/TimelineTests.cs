using PupilBridge.Exchange.Paper.Plots;
using PupilBridge.Exchange.Report.Timeline;

namespace PupilBridge.Exchange.Tests.Report;

public sealed class TimelineTests
{
    [Fact]
    public void Every_stimulus_and_capture_of_the_record_is_drawn()
    {
        var record = Samples.Of("abnormal").Record;
        var timeline = ExamTimeline.Of(record);
        var bars = record.Trains.SelectMany(t => t.OnMilliseconds).Count();
        Assert.True(bars > 15);
        Assert.Equal(record.Runs.Sum(r => r.Right + r.Left + r.NotComplete), bars);
        var shapes = TimelineDrawing.Of(timeline, 500, 7);
        Assert.Equal(bars, shapes.OfType<PlotBox>().Count(b => b.Tone == PlotTone.Mid));
        Assert.Equal(record.Sizes.Count, shapes.OfType<PlotCircle>().Count() + shapes.OfType<PlotDiamond>().Count());
    }

    [Fact]
    public void Stimuli_last_as_long_as_the_instrument_said()
    {
        var record = Samples.Of("normal").Record;
        var shortSwings = record.Trains.Where(t => t.Block == "swing-short").SelectMany(t => t.ForMilliseconds);
        Assert.All(shortSwings, length => Assert.Equal(1000, length));
        var longSwings = record.Trains.Where(t => t.Block == "swing-long").SelectMany(t => t.ForMilliseconds);
        Assert.All(longSwings, length => Assert.Equal(3000, length));
    }

    [Fact]
    public void Later_stands_further_right_and_a_long_silence_is_drawn_shorter_and_marked()
    {
        ExamTimeline timeline = new()
        {
            Trains = [new("right", "direct", 1, [new(10_000, 1_000), new(14_000, 1_000)])],
            Captures = [new("left", 5_000, "bright", true, 3200), new("left", 3_600_000, "dim", true, 5100)],
        };
        var axis = TimelineAxis.Of(timeline);
        double[] places = [axis.Place(5_000), axis.Place(10_000), axis.Place(14_000), axis.Place(3_600_000)];
        Assert.Equal(places.Order(), places);
        Assert.Equal(4, places.Distinct().Count());
        Assert.True(places[1] - places[0] > 0.1, "five seconds stay visible in an exam of an hour");
        Assert.Single(axis.Breaks);
        Assert.InRange(axis.Breaks.Single(), places[2], places[3]);
    }

    /// <summary>Long dwell begins where the name of the short dwell still stands; its own name is pushed aside and stays above its run.</summary>
    [Fact]
    public void Every_run_that_has_room_bears_its_name_and_no_name_runs_into_another()
    {
        ExamTimeline timeline = new()
        {
            Trains =
            [
                new("right", "direct", 1, [new(0, 1_000), new(8_000, 1_000)]),
                new("right", "swing-short", 1, [new(24_000, 1_000), new(27_000, 1_000)]),
                new("right", "swing-long", 1, [new(28_500, 3_000), new(53_000, 3_000)]),
            ],
            Captures = [],
        };
        var shapes = TimelineDrawing.Of(timeline, 500, 7);
        var names = shapes.OfType<PlotWords>().Where(w => w.Text is "direct" or "short dwell" or "long dwell").ToList();
        Assert.Equal(["direct", "short dwell", "long dwell"], names.Select(n => n.Text));
        var lines = shapes.OfType<PlotLine>().Where(l => l.Y1.Equals(l.Y2) && l.Y1 < 1.8 * 7).ToList();
        Assert.Equal(3, lines.Count);
        Assert.True(names[2].X > lines[2].X1, "it is pushed aside");
        Assert.All(names.Zip(lines), pair => Assert.InRange(pair.First.X, pair.Second.X1, pair.Second.X2));
        Assert.True(names[2].X > names[1].X + ("short dwell".Length * 0.52 * 7));
    }

    [Fact]
    public void A_single_capture_can_be_drawn()
    {
        ExamTimeline timeline = new() { Trains = [], Captures = [new("left", 0, null, true, 3200)] };
        Assert.All(TimelineDrawing.Of(timeline, 300, 7).OfType<PlotDiamond>(), mark => Assert.InRange(mark.X, 0, 300));
        Assert.Contains("3.20 mm in a light not said", TimelineWords.Of(timeline), StringComparison.Ordinal);
        Assert.Contains("OD (right): no capture", TimelineWords.Of(timeline), StringComparison.Ordinal);
    }
}
