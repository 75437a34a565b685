using System.Globalization;
using System.Net;
using System.Text;

namespace PupilBridge.Exchange.Paper.Plots;

/// <summary>A plot as an SVG element within a page. It styles itself by attributes alone, so that no inline style is needed.</summary>
internal static class PlotSvg
{
    private const double Width = 960;
    private const double Letter = 13;

    /// <summary>Draws.</summary>
    /// <param name="plot">What to show.</param>
    /// <param name="alternative">The same in words.</param>
    public static string Draw(PlotDrawing plot, string alternative)
    {
        var svg = new StringBuilder(8_192);
        var height = Number(plot.Height(Letter));
        svg.Append($"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Number(Width)} {height}\" role=\"img\" ");
        svg.Append($"font-family=\"sans-serif\" font-size=\"{Number(Letter)}\">\n");
        svg.Append($"<title>{Safe(plot.Title)}</title>\n<desc>{Safe(alternative)}</desc>\n");
        foreach (var shape in plot.Draw(Width, Letter))
            svg.Append(Shape(shape)).Append('\n');
        return svg.Append("</svg>\n").ToString();
    }

    private static string Shape(PlotShape shape) =>
        shape switch
        {
            PlotLine l =>
                $"<line x1=\"{Number(l.X1)}\" y1=\"{Number(l.Y1)}\" x2=\"{Number(l.X2)}\" y2=\"{Number(l.Y2)}\" "
                    + $"stroke=\"{Colour(l.Tone)}\"{(l.IsDashed ? " stroke-dasharray=\"6 4\"" : "")}/>",
            PlotBox b =>
                $"<rect x=\"{Number(b.X)}\" y=\"{Number(b.Y)}\" width=\"{Number(b.Width)}\" height=\"{Number(b.Height)}\" {Fill(b.Tone)}/>",
            PlotArea a =>
                $"<path d=\"M{string.Join('L', a.Corners.Select(corner => $"{Number(corner.X)} {Number(corner.Y)}"))}Z\" {Fill(a.Tone)}/>",
            PlotCircle c =>
                $"<circle cx=\"{Number(c.X)}\" cy=\"{Number(c.Y)}\" r=\"{Number(c.Radius)}\" {Fill(c.Tone)}/>",
            PlotDiamond d =>
                $"<path d=\"M{Number(d.X)} {Number(d.Y - d.Radius)}L{Number(d.X + d.Radius)} {Number(d.Y)}L{Number(d.X)} "
                    + $"{Number(d.Y + d.Radius)}L{Number(d.X - d.Radius)} {Number(d.Y)}Z\" {Fill(PlotTone.Hollow)}/>",
            PlotWords w => $"<text x=\"{Number(w.X)}\" y=\"{Number(w.Y)}\"{Anchor(w.Anchor)}"
                + $"{(w.IsBold ? " font-weight=\"bold\"" : "")}>{Safe(w.Text)}</text>",
            _ => throw new ArgumentException($"{shape.GetType().Name} is no known shape.", nameof(shape)),
        };

    private static string Anchor(PlotAnchor anchor) =>
        anchor switch
        {
            PlotAnchor.Middle => " text-anchor=\"middle\"",
            PlotAnchor.End => " text-anchor=\"end\"",
            _ => "",
        };

    private static string Fill(PlotTone tone) =>
        tone == PlotTone.Hollow ? "fill=\"#fff\" stroke=\"#000\"" : $"fill=\"{Colour(tone)}\"";

    private static string Colour(PlotTone tone) =>
        tone switch
        {
            PlotTone.Mid => "#777",
            PlotTone.Faint => "#ccc",
            _ => "#000",
        };

    private static string Number(double value) => Math.Round(value, 2).ToString("0.##", CultureInfo.InvariantCulture);

    private static string Safe(string text) => WebUtility.HtmlEncode(VisibleText.Of(text));
}
