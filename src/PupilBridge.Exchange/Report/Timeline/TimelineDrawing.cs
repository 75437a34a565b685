using System.Globalization;
using PupilBridge.Exchange.Paper.Plots;

namespace PupilBridge.Exchange.Report.Timeline;

/// <summary>Draws a timeline as shapes, for paper and page alike: the right eye above the left, bars for lamps, marks for captures.</summary>
internal sealed class TimelineDrawing
{
    private readonly double letter;
    private readonly double left;
    private readonly double inner;
    private readonly TimelineAxis axis;
    private readonly List<PlotShape> shapes = [];

    private TimelineDrawing(ExamTimeline timeline, double width, double letter)
    {
        this.letter = letter;
        left = 6.2 * letter;
        inner = width - left - letter;
        axis = TimelineAxis.Of(timeline);
    }

    /// <summary>How high the drawing is.</summary>
    /// <param name="letter">The height of letters.</param>
    public static double Height(double letter) => 10.7 * letter;

    /// <summary>Draws.</summary>
    /// <param name="timeline">What to show; not empty.</param>
    /// <param name="width">The width.</param>
    /// <param name="letter">The height of letters, in the same unit.</param>
    /// <returns>The shapes, from back to front.</returns>
    public static IReadOnlyList<PlotShape> Of(ExamTimeline timeline, double width, double letter)
    {
        var drawing = new TimelineDrawing(timeline, width, letter);
        drawing.Frame();
        drawing.Runs(timeline);
        drawing.Eye(timeline, "right", 3.05 * letter);
        drawing.Eye(timeline, "left", 6.15 * letter);
        return drawing.shapes;
    }

    private double X(long milliseconds) => left + (inner * axis.Place(milliseconds));

    private void Frame()
    {
        var (top, bottom) = (1.8 * letter, 8.1 * letter);
        shapes.Add(new PlotBox(left, top, inner, bottom - top, PlotTone.Hollow));
        foreach (var tick in axis.Ticks((int)(inner / (4.2 * letter))))
        {
            shapes.Add(new PlotLine(X(tick), top, X(tick), bottom, PlotTone.Faint));
            var at = TimeSpan.FromMilliseconds(tick);
            var words = tick < 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{(int)at.TotalMinutes}:{at:ss}");
            shapes.Add(new PlotWords(X(tick), bottom + (1.2 * letter), words, PlotAnchor.Middle, false));
        }

        foreach (var place in axis.Breaks)
        {
            var x = left + (inner * place);
            shapes.Add(new PlotWords(x, bottom + (0.35 * letter), "//", PlotAnchor.Middle, true));
            shapes.Add(new PlotWords(x, top + (0.35 * letter), "//", PlotAnchor.Middle, true));
        }

        var legend = $"{ReportWords.Text["Timeline.Key"]}   {ReportWords.Text["Timeline.Axis"]}";
        shapes.Add(new PlotWords(0, bottom + (2.3 * letter), legend, PlotAnchor.Start, false));
    }

    /// <summary>The name of each run above its stimuli, as far as it has room; one that has none stands in the table below.</summary>
    private void Runs(ExamTimeline timeline)
    {
        var free = left;
        foreach (
            var run in timeline
                .Trains.Where(t => t.Block is not null)
                .GroupBy(t => (t.Block, t.Run))
                .OrderBy(g => g.Min(t => t.Bars[0].OnMilliseconds))
        )
        {
            var bars = run.SelectMany(t => t.Bars).ToArray();
            var (from, to) = (
                X(bars.Min(b => b.OnMilliseconds)),
                X(bars.Max(b => b.OnMilliseconds + (b.ForMilliseconds ?? 0)))
            );
            shapes.Add(new PlotLine(from, 1.45 * letter, Math.Max(to, from + 1), 1.45 * letter, PlotTone.Ink));
            var words = ReportWords.Of("PlotBlock", run.Key.Block);
            if (run.Key.Run > 1)
                words += string.Create(CultureInfo.InvariantCulture, $" {run.Key.Run}");
            var room = words.Length * 0.52 * letter;
            // Pushed aside by the name before it, it must still stand above its own run.
            var at = Math.Max(from, free);
            if (at + room <= left + inner + letter && (at <= from || at + room <= to))
            {
                shapes.Add(new PlotWords(at, 1.05 * letter, words, PlotAnchor.Start, false));
                free = at + room + (0.5 * letter);
            }
        }
    }

    private void Eye(ExamTimeline timeline, string eye, double middle)
    {
        shapes.Add(new PlotWords(0, middle + (0.75 * letter), ReportWords.Of("Eye", eye), PlotAnchor.Start, true));
        shapes.Add(new PlotLine(left, middle + (1.6 * letter), left + inner, middle + (1.6 * letter), PlotTone.Mid));
        foreach (var train in timeline.Trains.Where(t => t.Eye == eye))
        {
            foreach (var bar in train.Bars)
                Bar(bar, middle, train.Block is null);
        }

        foreach (var capture in timeline.Captures.Where(c => c.Eye == eye))
            Capture(capture, middle - (0.6 * letter));
    }

    /// <summary>A lamp is never thinner than can be printed; one whose end was never learnt has no body.</summary>
    private void Bar(TimelineBar bar, double middle, bool isLoose)
    {
        var (top, height) = (middle + (0.3 * letter), 1.3 * letter);
        var x = X(bar.OnMilliseconds);
        if (bar.ForMilliseconds is not { } length)
        {
            shapes.Add(new PlotLine(x, top - (0.2 * letter), x, top + height, PlotTone.Ink));
            return;
        }

        var wide = Math.Max(0.05 * letter, X(bar.OnMilliseconds + length) - x);
        shapes.Add(new PlotBox(x, top, wide, height, isLoose ? PlotTone.Hollow : PlotTone.Mid));
        // The edge of each lamp going on, so that stimuli without a gap between stay apart.
        shapes.Add(new PlotLine(x, top, x, top + height, PlotTone.Ink));
    }

    private void Capture(TimelineCapture capture, double y)
    {
        var x = X(capture.AtMilliseconds);
        if (!capture.Counts || capture.Light is null)
            shapes.Add(new PlotDiamond(x, y, 0.42 * letter));
        else
            shapes.Add(new PlotCircle(x, y, 0.36 * letter, capture.Light == "bright" ? PlotTone.Ink : PlotTone.Hollow));
    }
}
