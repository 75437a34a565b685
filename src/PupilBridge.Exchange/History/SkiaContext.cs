using OxyPlot;
using PupilBridge.Exchange.Paper.Pdf;
using SkiaSharp;

namespace PupilBridge.Exchange.History;

/// <summary>Draws a plot into a picture, with the letters that come with the program, so that it looks alike on every machine.</summary>
internal sealed class SkiaContext : ClippingRenderContext, IDisposable
{
    private readonly SKCanvas canvas;
    private readonly SKTypeface plain = Face(isBold: false);
    private readonly SKTypeface bold = Face(isBold: true);

    /// <summary>Draws onto a canvas whose unit is one pixel of the plot.</summary>
    /// <param name="canvas">The canvas.</param>
    public SkiaContext(SKCanvas canvas)
    {
        this.canvas = canvas;
        RendersToScreen = false;
    }

    /// <inheritdoc/>
    public override void DrawLine(
        IList<ScreenPoint> points,
        OxyColor stroke,
        double thickness,
        EdgeRenderingMode edgeRenderingMode,
        double[] dashArray,
        LineJoin lineJoin
    )
    {
        if (points.Count < 2 || !IsVisible(stroke, thickness))
            return;
        using var path = PathOf(points, isClosed: false);
        Stroke(path, stroke, thickness, dashArray);
    }

    /// <inheritdoc/>
    public override void DrawPolygon(
        IList<ScreenPoint> points,
        OxyColor fill,
        OxyColor stroke,
        double thickness,
        EdgeRenderingMode edgeRenderingMode,
        double[] dashArray,
        LineJoin lineJoin
    )
    {
        if (points.Count < 2)
            return;
        using var path = PathOf(points, isClosed: true);
        if (!fill.IsUndefined() && fill.A > 0)
        {
            using var paint = new SKPaint { Color = Colour(fill), IsAntialias = true };
            canvas.DrawPath(path, paint);
        }

        if (IsVisible(stroke, thickness))
            Stroke(path, stroke, thickness, dashArray);
    }

    /// <inheritdoc/>
    public override void DrawText(
        ScreenPoint p,
        string text,
        OxyColor fill,
        string fontFamily,
        double fontSize,
        double fontWeight,
        double rotation,
        HorizontalAlignment horizontalAlignment,
        VerticalAlignment verticalAlignment,
        OxySize? maxSize
    )
    {
        if (string.IsNullOrEmpty(text))
            return;
        var printable = ReportFonts.Coverage.Printable(text);
        using var font = Font(fontSize, fontWeight);
        using var paint = new SKPaint { Color = Colour(fill), IsAntialias = true };
        var across = horizontalAlignment switch
        {
            HorizontalAlignment.Left => SKTextAlign.Left,
            HorizontalAlignment.Right => SKTextAlign.Right,
            _ => SKTextAlign.Center,
        };
        var metrics = font.Metrics;
        var down = verticalAlignment switch
        {
            VerticalAlignment.Top => -metrics.Ascent,
            VerticalAlignment.Bottom => -metrics.Descent,
            _ => -(metrics.Ascent + metrics.Descent) / 2,
        };
        canvas.Save();
        canvas.Translate((float)p.X, (float)p.Y);
        canvas.RotateDegrees((float)rotation);
        canvas.DrawText(printable, 0, down, across, font, paint);
        canvas.Restore();
    }

    /// <inheritdoc/>
    public override OxySize MeasureText(string text, string fontFamily, double fontSize, double fontWeight)
    {
        if (string.IsNullOrEmpty(text))
            return OxySize.Empty;
        using var font = Font(fontSize, fontWeight);
        var metrics = font.Metrics;
        return new(font.MeasureText(ReportFonts.Coverage.Printable(text)), metrics.Descent - metrics.Ascent);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        plain.Dispose();
        bold.Dispose();
    }

    /// <inheritdoc/>
    protected override void SetClip(OxyRect clippingRectangle)
    {
        canvas.Save();
        canvas.ClipRect(
            new SKRect(
                (float)clippingRectangle.Left,
                (float)clippingRectangle.Top,
                (float)clippingRectangle.Right,
                (float)clippingRectangle.Bottom
            )
        );
    }

    /// <inheritdoc/>
    protected override void ResetClip() => canvas.Restore();

    private SKFont Font(double size, double weight) => new(weight > 500 ? bold : plain, (float)size);

    private void Stroke(SKPath path, OxyColor stroke, double thickness, double[]? dashes)
    {
        using var dash = dashes is { Length: > 1 }
            ? SKPathEffect.CreateDash([.. dashes.Select(d => (float)(d * thickness))], 0)
            : null;
        using var paint = new SKPaint
        {
            Color = Colour(stroke),
            IsStroke = true,
            IsAntialias = true,
            StrokeWidth = (float)thickness,
            PathEffect = dash,
        };
        canvas.DrawPath(path, paint);
    }

    private static SKPath PathOf(IList<ScreenPoint> points, bool isClosed)
    {
        using var builder = new SKPathBuilder();
        builder.MoveTo((float)points[0].X, (float)points[0].Y);
        foreach (var point in points.Skip(1))
            builder.LineTo((float)point.X, (float)point.Y);
        if (isClosed)
            builder.Close();
        return builder.Detach();
    }

    private static SKTypeface Face(bool isBold)
    {
        using var data = SKData.CreateCopy(ReportFonts.Bytes(isBold));
        return SKTypeface.FromData(data);
    }

    private static bool IsVisible(OxyColor stroke, double thickness) =>
        thickness > 0 && !stroke.IsUndefined() && stroke.A > 0;

    private static SKColor Colour(OxyColor colour) => new(colour.R, colour.G, colour.B, colour.A);
}
