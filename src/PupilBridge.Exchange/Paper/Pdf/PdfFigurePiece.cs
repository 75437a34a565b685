using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using PupilBridge.Exchange.Paper.Plots;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>A plot, with the same in words behind it.</summary>
/// <param name="figure">The plot.</param>
/// <param name="letters">The letters.</param>
internal sealed class PdfFigurePiece(ReportFigure figure, PdfLetters letters) : PdfPiece
{
    private double Letter => letters.Small.Size;

    /// <inheritdoc/>
    public override double Height => figure.Plot.Height(Letter) + 2;

    /// <inheritdoc/>
    public override void Draw(PdfPlace place, double y)
    {
        place.Structure.BeginElement(
            PdfIllustrationElementTag.Figure,
            figure.Alternative,
            new XRect(place.Left, y, place.Width, Height)
        );
        foreach (var shape in figure.Plot.Draw(place.Width, Letter))
            Draw(place, shape, y);
        place.Structure.End();
    }

    private void Draw(PdfPlace place, PlotShape shape, double top)
    {
        var (g, left) = (place.Graphics, place.Left);
        switch (shape)
        {
            case PlotLine l:
                g.DrawLine(Pen(l.Tone, l.IsDashed), left + l.X1, top + l.Y1, left + l.X2, top + l.Y2);
                break;
            case PlotBox { Tone: PlotTone.Hollow } b:
                g.DrawRectangle(Pen(PlotTone.Ink), left + b.X, top + b.Y, b.Width, b.Height);
                break;
            case PlotBox b:
                g.DrawRectangle(Brush(b.Tone), left + b.X, top + b.Y, b.Width, b.Height);
                break;
            case PlotArea a:
                XPoint[] outline = [.. a.Corners.Select(corner => new XPoint(left + corner.X, top + corner.Y))];
                g.DrawPolygon(Brush(a.Tone), outline, XFillMode.Winding);
                break;
            case PlotCircle c:
                var (x, y, size) = (left + c.X - c.Radius, top + c.Y - c.Radius, 2 * c.Radius);
                g.DrawEllipse(Pen(PlotTone.Ink), Brush(c.Tone), x, y, size, size);
                break;
            case PlotDiamond d:
                XPoint[] corners =
                [
                    new(left + d.X, top + d.Y - d.Radius),
                    new(left + d.X + d.Radius, top + d.Y),
                    new(left + d.X, top + d.Y + d.Radius),
                    new(left + d.X - d.Radius, top + d.Y),
                ];
                g.DrawPolygon(Pen(PlotTone.Ink), XBrushes.White, corners, XFillMode.Winding);
                break;
            case PlotWords { Text.Length: > 0 } w:
                Words(place, w, top);
                break;
            default:
                break;
        }
    }

    private void Words(PdfPlace place, PlotWords words, double top)
    {
        var font = words.IsBold ? new XFont(ReportFonts.Family, Letter, XFontStyleEx.Bold) : letters.Small;
        var text = ReportFonts.Coverage.Printable(words.Text);
        var back = words.Anchor switch
        {
            PlotAnchor.Middle => letters.Width(text, font) / 2,
            PlotAnchor.End => letters.Width(text, font),
            _ => 0,
        };
        place.Graphics.DrawString(text, font, XBrushes.Black, place.Left + words.X - back, top + words.Y);
    }

    private static XPen Pen(PlotTone tone, bool isDashed = false)
    {
        var pen = new XPen(Colour(tone), tone == PlotTone.Faint ? 0.3 : 0.5);
        if (isDashed)
            pen.DashPattern = [6, 4];
        return pen;
    }

    private static XSolidBrush Brush(PlotTone tone) => tone == PlotTone.Hollow ? XBrushes.White : new(Colour(tone));

    private static XColor Colour(PlotTone tone) =>
        tone switch
        {
            PlotTone.Mid => XColor.FromGrayScale(0.47),
            PlotTone.Faint => XColor.FromGrayScale(0.8),
            _ => XColors.Black,
        };
}
