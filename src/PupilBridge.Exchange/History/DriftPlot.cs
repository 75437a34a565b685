using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;
using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.History;

/// <summary>What of an instrument is drawn over time.</summary>
public enum DriftQuantity
{
    /// <summary>The error of each scale, in mm.</summary>
    Offset = 1,

    /// <summary>The slope of each scale's error, in mm per mm.</summary>
    Slope = 2,

    /// <summary>Where each scale comes to rest at home, off its declared home, in mm.</summary>
    Home = 3,
}

/// <summary>
/// Draws how an instrument went over time: a line for each scale, its control limits dotted, the limit dashed. Quick checks are hollow.
/// The table beside it says the same in numbers.
/// </summary>
public static class DriftPlot
{
    private const double Width = 960;
    private const double Height = 320;
    private const double FontSize = 14;

    /// <summary>Draws the plot as vectors, for pages.</summary>
    /// <param name="view">How the instrument went.</param>
    /// <param name="quantity">What to draw.</param>
    /// <param name="isDark">Whether for a darkened room; else for review and paper.</param>
    /// <returns>An SVG document.</returns>
    public static string Svg(DriftView view, DriftQuantity quantity, bool isDark)
    {
        ArgumentNullException.ThrowIfNull(view);
        var (series, limit) = Of(view, quantity);
        var face = isDark ? PlotFace.Dark : PlotFace.Light;
        var model = Empty(face, quantity, series, limit);
        var days = Days(series);
        AddLevel(model, days, [limit, -limit], face.Ink, LineStyle.Dash, HistoryWords.Text["Drift.Limit"]);
        foreach (var (eye, one) in new[] { ("OD", series.Right), ("OS", series.Left) })
        {
            Add(model, days, eye, one, eye == "OD" ? face.Right : face.Left, face.Ground);
        }

        return new SvgExporter
        {
            Width = Width,
            Height = Height,
            IsDocument = true,
            TextMeasurer = new BrowserLikeMeasurer(),
        }.ExportToString(model);
    }

    /// <summary>The series of a quantity and the limit that it is held against.</summary>
    /// <param name="view">How the instrument went.</param>
    /// <param name="quantity">Which quantity.</param>
    /// <returns>The series of both scales, and the largest value allowed to either side.</returns>
    public static (PerEye<DriftSeries> Series, double Limit) Of(DriftView view, DriftQuantity quantity)
    {
        ArgumentNullException.ThrowIfNull(view);
        return quantity switch
        {
            DriftQuantity.Offset => (view.Offsets, view.LimitMillimetres),
            DriftQuantity.Slope => (view.Slopes, view.SlopeLimit),
            DriftQuantity.Home => (view.Homes, view.LimitMillimetres),
            _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, "No series is of this quantity."),
        };
    }

    private static void Add(
        PlotModel model,
        (double From, double To) days,
        string eye,
        DriftSeries series,
        OxyColor colour,
        OxyColor ground
    )
    {
        if (series is { Upper: { } upper, Lower: { } lower })
        {
            AddLevel(
                model,
                days,
                [upper, lower],
                colour,
                LineStyle.Dot,
                HistoryWords.Text.Get("Drift.Control", HistoryWords.Text[$"Drift.{eye}"])
            );
        }

        var line = new LineSeries
        {
            Title = HistoryWords.Text[$"Drift.{eye}"],
            Color = colour,
            StrokeThickness = 1.5,
        };
        line.Points.AddRange(series.Points.Select(point => new DataPoint(Day(point), point.Value)));
        model.Series.Add(line);
        foreach (var isQuick in new[] { false, true })
        {
            var marks = new ScatterSeries
            {
                MarkerType = eye == "OD" ? MarkerType.Circle : MarkerType.Square,
                MarkerSize = 5,
                MarkerStroke = colour,
                MarkerStrokeThickness = 2,
                MarkerFill = isQuick ? ground : colour,
            };
            marks.Points.AddRange(
                series
                    .Points.Where(point => point.IsQuickCheck == isQuick)
                    .Select(point => new ScatterPoint(Day(point), point.Value))
            );
            model.Series.Add(marks);
        }
    }

    private static void AddLevel(
        PlotModel model,
        (double From, double To) days,
        double[] levels,
        OxyColor colour,
        LineStyle style,
        string title
    )
    {
        foreach (var (i, level) in levels.Index())
        {
            var line = new LineSeries
            {
                // Both lines of a pair are alike: one name in the legend is enough.
                Title = i == 0 ? title : null,
                Color = colour,
                LineStyle = style,
                StrokeThickness = 1.5,
            };
            line.Points.Add(new DataPoint(days.From, level));
            line.Points.Add(new DataPoint(days.To, level));
            model.Series.Add(line);
        }
    }

    private static PlotModel Empty(PlotFace face, DriftQuantity quantity, PerEye<DriftSeries> series, double limit)
    {
        var (from, to) = Days(series);
        var reach =
            1.15 * Both(series).SelectMany(one => one.Points).Select(p => Math.Abs(p.Value)).Append(limit).Max();
        return PlotFrame.Of(
            face,
            FontSize,
            from,
            to,
            new LinearAxis
            {
                Title = HistoryWords.Text.Of("Drift", quantity),
                Minimum = -reach,
                Maximum = reach,
            }
        );
    }

    /// <summary>The days that are shown: those with points, and a little before and after, so that no point lies on the frame.</summary>
    private static (double From, double To) Days(PerEye<DriftSeries> series)
    {
        double[] all = [.. Both(series).SelectMany(one => one.Points).Select(Day)];
        if (all.Length == 0)
        {
            return (0, 1);
        }

        var margin = Math.Max(1, 0.03 * (all.Max() - all.Min()));
        return (all.Min() - margin, all.Max() + margin);
    }

    private static IEnumerable<DriftSeries> Both(PerEye<DriftSeries> series) => [series.Right, series.Left];

    private static double Day(DriftPointView point) =>
        DateTimeAxis.ToDouble(point.Day.ToDateTime(TimeOnly.MinValue, DateTimeKind.Unspecified));
}
