using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;
using PupilBridge.Clinic.Views;
using SkiaSharp;

namespace PupilBridge.Exchange.History;

/// <summary>
/// Draws sizes over time, one line per eye and light, each point with its expanded uncertainty. The table beside it says the same in
/// numbers.
/// </summary>
public static class HistoryPlot
{
    private const double Width = 960;
    private const double Height = 360;
    private const double FontSize = 14;

    /// <summary>The four lines, right before left.</summary>
    private static readonly (string Eye, string Light)[] Lines =
    [
        ("OD", "bright"),
        ("OD", "dim"),
        ("OS", "bright"),
        ("OS", "dim"),
    ];

    /// <summary>Draws the plot as vectors, for pages.</summary>
    /// <param name="history">The patient's visits.</param>
    /// <param name="isDark">Whether for a darkened room; else for review and paper.</param>
    /// <param name="time">The clinic's clock, with its time zone.</param>
    /// <returns>An SVG document.</returns>
    public static string Svg(PatientHistory history, bool isDark, TimeProvider time) =>
        new SvgExporter
        {
            Width = Width,
            Height = Height,
            IsDocument = true,
            TextMeasurer = new BrowserLikeMeasurer(),
        }.ExportToString(Model(history, isDark ? PlotFace.Dark : PlotFace.Light, time));

    /// <summary>Draws the plot as a picture for paper: black on white, 300 dots to the inch at 8 cm by 21 cm.</summary>
    /// <param name="history">The patient's visits.</param>
    /// <param name="time">The clinic's clock, with its time zone.</param>
    /// <returns>A PNG file.</returns>
    public static byte[] Png(PatientHistory history, TimeProvider time)
    {
        const float Sharper = 2.6f;
        using var surface = SKSurface.Create(new SKImageInfo((int)(Width * Sharper), (int)(Height * Sharper)));
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.Scale(Sharper);
        using var context = new SkiaContext(surface.Canvas);
        IPlotModel model = Model(history, PlotFace.Light, time);
        model.Update(updateData: true);
        model.Render(context, new OxyRect(0, 0, Width, Height));
        using var picture = surface.Snapshot();
        using var png = picture.Encode(SKEncodedImageFormat.Png, 100);
        return png.ToArray();
    }

    private static PlotModel Model(PatientHistory history, PlotFace face, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(time);
        var span = PlotSpan.Of(history, time);
        var model = Empty(face, span);
        foreach (var (eye, light) in Lines)
        {
            var points = Points(history, eye, light, span, time);
            if (points.Count > 0)
            {
                model.Series.Add(Connecting(points, eye, light, face));
                model.Series.Add(WithBars(points, eye, face));
            }
        }

        return model;
    }

    private static PlotModel Empty(PlotFace face, PlotSpan span) =>
        PlotFrame.Of(
            face,
            FontSize,
            span.FirstDay,
            span.LastDay,
            new LinearAxis
            {
                Title = HistoryWords.Text["Plot.Millimetres"],
                Minimum = span.FromMillimetres,
                Maximum = span.ToMillimetres,
                MajorStep = 1,
                MinorTickSize = 0,
            }
        );

    private static LineSeries Connecting(List<ScatterErrorPoint> points, string eye, string light, PlotFace face)
    {
        var isRight = eye == "OD";
        var colour = isRight ? face.Right : face.Left;
        var line = new LineSeries
        {
            Title = HistoryWords.Text[$"Plot.{eye}.{light}"],
            Color = colour,
            StrokeThickness = 2,
            LineStyle = light == "bright" ? LineStyle.Solid : LineStyle.Dash,
            MarkerType = isRight ? MarkerType.Circle : MarkerType.Square,
            MarkerSize = 5,
            MarkerStroke = colour,
            MarkerStrokeThickness = 2,
            MarkerFill = light == "bright" ? colour : face.Ground,
        };
        line.Points.AddRange(points.Select(point => new DataPoint(point.X, point.Y)));
        return line;
    }

    private static ScatterErrorSeries WithBars(List<ScatterErrorPoint> points, string eye, PlotFace face)
    {
        var bars = new ScatterErrorSeries
        {
            ErrorBarColor = eye == "OD" ? face.Right : face.Left,
            ErrorBarStrokeThickness = 1.5,
            ErrorBarStopWidth = 8,
            MarkerType = MarkerType.None,
        };
        bars.Points.AddRange(points);
        return bars;
    }

    private static List<ScatterErrorPoint> Points(
        PatientHistory history,
        string eye,
        string light,
        PlotSpan span,
        TimeProvider time
    ) =>
        [
            .. history
                .Visits.Select(visit =>
                    (
                        visit.Exam.OpenedAt,
                        Size: visit.Sizes.LastOrDefault(s => s.Eye == eye && s.Light == light && !s.IsSuperseded)
                    )
                )
                .Where(at => at.Size is not null)
                .OrderBy(at => at.OpenedAt)
                .Select(at => new ScatterErrorPoint(
                    span.Place(at.OpenedAt, eye, time),
                    at.Size!.Millimetres,
                    0,
                    2 * at.Size.UncertaintyMillimetres
                )),
        ];
}
