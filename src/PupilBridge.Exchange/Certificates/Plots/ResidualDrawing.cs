using PupilBridge.Exchange.Paper.Plots;

namespace PupilBridge.Exchange.Certificates.Plots;

/// <summary>Draws residuals as shapes: the band grey, the line through its middle, rings for readings, dots for means.</summary>
internal sealed class ResidualDrawing
{
    private readonly ResidualPlot plot;
    private readonly ResidualSpan span;
    private readonly double letter;
    private readonly double left;
    private readonly double inner;
    private readonly double top;
    private readonly double bottom;
    private readonly List<PlotShape> shapes = [];

    private ResidualDrawing(ResidualPlot plot, double width, double letter)
    {
        (this.plot, this.letter) = (plot, letter);
        span = ResidualSpan.Of(plot);
        left = 4.6 * letter;
        inner = width - left - (0.5 * letter);
        top = 2.8 * letter;
        bottom = Height(letter) - (3.4 * letter);
    }

    /// <summary>How high the drawing is.</summary>
    /// <param name="letter">The height of letters.</param>
    public static double Height(double letter) => 21 * letter;

    /// <summary>Draws.</summary>
    /// <param name="plot">What to show.</param>
    /// <param name="width">The width.</param>
    /// <param name="letter">The height of letters, in the same unit.</param>
    /// <returns>The shapes, from back to front.</returns>
    public static IReadOnlyList<PlotShape> Of(ResidualPlot plot, double width, double letter)
    {
        var drawing = new ResidualDrawing(plot, width, letter);
        drawing.Band();
        drawing.Grid();
        drawing.Limits();
        drawing.Points();
        drawing.Words();
        return drawing.shapes;
    }

    private double X(double indicated) => left + (inner * (indicated - span.From) / (span.To - span.From));

    private double Y(double residual) => ((top + bottom) / 2) - ((bottom - top) / 2 * residual / span.Half);

    private void Band()
    {
        shapes.Add(new PlotBox(left, top, inner, bottom - top, PlotTone.Hollow));
        if (plot.Band.Count > 1)
            shapes.Add(
                new PlotArea(
                    [
                        .. plot.Band.Select(point => new PlotPoint(X(point.Indicated), Y(point.Expanded))),
                        .. plot.Band.Reverse().Select(point => new PlotPoint(X(point.Indicated), Y(-point.Expanded))),
                    ],
                    PlotTone.Faint
                )
            );
    }

    private void Grid()
    {
        var (places, placeDecimals) = ResidualSpan.Ticks(span.From, span.To, 10);
        foreach (var place in places)
        {
            shapes.Add(new PlotLine(X(place), bottom, X(place), bottom - (0.4 * letter), PlotTone.Ink));
            var words = Amounts.Fixed(place, placeDecimals);
            shapes.Add(new PlotWords(X(place), bottom + (1.1 * letter), words, PlotAnchor.Middle, false));
        }

        var (values, decimals) = ResidualSpan.Ticks(-span.Half, span.Half, 8);
        foreach (var value in values)
        {
            shapes.Add(new PlotLine(left, Y(value), left + (0.4 * letter), Y(value), PlotTone.Ink));
            var words = Amounts.Signed(value, decimals);
            shapes.Add(new PlotWords(left - (0.4 * letter), Y(value) + (0.35 * letter), words, PlotAnchor.End, false));
        }

        shapes.Add(new PlotLine(left, Y(0), left + inner, Y(0), PlotTone.Ink));
    }

    /// <summary>The lines at which the error before correction meets its limit, as far as they cross the picture.</summary>
    private void Limits()
    {
        foreach (var side in (int[])[-1, 1])
        {
            if (Visible(side) is { } part)
                shapes.Add(
                    new PlotLine(
                        X(part.From),
                        Y(plot.LimitAt(side, part.From)),
                        X(part.To),
                        Y(plot.LimitAt(side, part.To)),
                        PlotTone.Ink
                    )
                    {
                        IsDashed = true,
                    }
                );
        }
    }

    /// <summary>From where to where a limit lies within the frame.</summary>
    private (double From, double To)? Visible(int side)
    {
        var (from, to) = (span.From, span.To);
        var (first, last) = (plot.LimitAt(side, from), plot.LimitAt(side, to));
        if (Math.Max(first, last) < -span.Half || Math.Min(first, last) > span.Half)
            return null;
        if (first.Equals(last))
            return (from, to);
        double At(double value) => from + ((to - from) * (value - first) / (last - first));
        var (one, other) = (At(-span.Half), At(span.Half));
        return (Math.Max(from, Math.Min(one, other)), Math.Min(to, Math.Max(one, other)));
    }

    private void Points()
    {
        foreach (var reading in plot.Readings)
            shapes.Add(new PlotCircle(X(reading.Indicated), Y(reading.Residual), 0.26 * letter, PlotTone.Hollow));
        foreach (var mean in plot.Means)
            shapes.Add(new PlotCircle(X(mean.Indicated), Y(mean.Residual), 0.26 * letter, PlotTone.Ink));
    }

    private void Words()
    {
        var text = CertificateTerms.Text;
        shapes.Add(new PlotWords(0, 2 * letter, text["Plot.Y"], PlotAnchor.Start, true));
        shapes.Add(new PlotWords(left + inner, bottom + (2.2 * letter), text["Plot.X"], PlotAnchor.End, true));
        var limit = text[shapes.Exists(shape => shape is PlotLine { IsDashed: true }) ? "Plot.Limit" : "Plot.NoLimit"];
        shapes.Add(new PlotWords(0, bottom + (3.2 * letter), $"{text["Plot.Key"]}   {limit}", PlotAnchor.Start, false));
    }
}
