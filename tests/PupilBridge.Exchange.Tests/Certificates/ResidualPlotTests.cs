using PupilBridge.Exchange.Certificates.Plots;
using PupilBridge.Exchange.Paper.Plots;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>The plot of residuals, held against the certificate's own numbers.</summary>
public sealed class ResidualPlotTests
{
    private const double Width = 500;
    private const double Letter = 7;

    public static TheoryData<string, Eye> Each
    {
        get
        {
            TheoryData<string, Eye> data = [];
            foreach (var name in CertificateSamples.Names)
            {
                data.Add(name, Eye.Right);
                data.Add(name, Eye.Left);
            }

            return data;
        }
    }

    /// <summary>The residuals of a disc's readings have that of its mean as their mean, and all together no more than rounding.</summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void Readings_lie_about_the_line_as_the_certificate_says(string name, Eye eye)
    {
        var scale = CertificateSamples.Of(name).Scales[eye];
        var plot = ResidualPlot.Of(CertificateSamples.Of(name), eye);
        Assert.Equal(scale.Readings.Count(reading => reading.State == "counts"), plot.Readings.Count);
        foreach (var mean in scale.Means)
        {
            var residuals = plot
                .Readings.Where(point => point.Disc == mean.Disc)
                .Select(point => point.Residual)
                .ToList();
            Assert.Equal(mean.Count, residuals.Count);
            Assert.Equal(mean.Residual, residuals.Average(), 9);
        }

        var s = Math.Sqrt(plot.Readings.Sum(p => p.Residual * p.Residual) / (plot.Readings.Count - 2));
        // The certificate's deviation takes indicated diameters at their disc's mean, the plot each at its own.
        Assert.InRange(s / scale.Line.ResidualDeviation, 0.9, 1.1);
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void The_band_encloses_the_line_by_its_uncertainty_and_everything_is_in_the_frame(string name, Eye eye)
    {
        var plot = ResidualPlot.Of(CertificateSamples.Of(name), eye);
        var shapes = plot.Draw(Width, Letter);
        var frame = Assert.Single(shapes.OfType<PlotBox>());
        var middle = frame.Y + (frame.Height / 2);
        var millimetre = frame.Height / 2 / ResidualSpan.Of(plot).Half;
        var band = Assert.Single(shapes.OfType<PlotArea>()).Corners;
        Assert.Equal(2 * plot.Band.Count, band.Count);
        for (var n = 0; n < plot.Band.Count; n++)
        {
            var (upper, lower) = (band[n], band[^(n + 1)]);
            Assert.Equal(upper.X, lower.X, 9);
            Assert.Equal(2 * plot.Band[n].Expanded * millimetre, lower.Y - upper.Y, 9);
            Assert.Equal(middle, (upper.Y + lower.Y) / 2, 9);
        }

        var dots = shapes.OfType<PlotCircle>().ToList();
        Assert.Equal(plot.Readings.Count + plot.Means.Count, dots.Count);
        foreach (
            var (x, y) in dots.Select(dot => (dot.X, dot.Y))
                .Concat(band.Select(corner => (corner.X, corner.Y)))
                .Concat(Limits(shapes).SelectMany(line => new[] { (line.X1, line.Y1), (line.X2, line.Y2) }))
        )
        {
            Assert.InRange(x, frame.X - 1e-6, frame.X + frame.Width + 1e-6);
            Assert.InRange(y, frame.Y - 1e-6, frame.Y + frame.Height + 1e-6);
        }

        foreach (var (reading, dot) in plot.Readings.Zip(dots))
            Assert.Equal(middle - (reading.Residual * millimetre), dot.Y, 9);
    }

    /// <summary>A reading on a limit line asks for a correction of the limit, so that its error is the limit.</summary>
    [Theory]
    [MemberData(nameof(Each))]
    public void On_the_limit_lines_the_error_before_correction_is_the_limit(string name, Eye eye)
    {
        var certificate = CertificateSamples.Of(name);
        var (plot, line) = (ResidualPlot.Of(certificate, eye), certificate.Scales[eye].Line);
        foreach (var indicated in (double[])[2, 5, 8])
        {
            var correction = line.Y1 + (line.Y2 * (indicated - line.D0));
            Assert.Equal(0.1, plot.LimitAt(+1, indicated) + correction, 12);
            Assert.Equal(-0.1, plot.LimitAt(-1, indicated) + correction, 12);
        }
    }

    [Fact]
    public void A_limit_far_off_does_not_squeeze_the_readings_and_the_key_says_where_it_is()
    {
        var far = ResidualPlot.Of(CertificateSamples.Of("passing"), Eye.Right);
        Assert.Empty(Limits(far.Draw(Width, Letter)));
        Assert.Contains(Words(far), words => words.Contains("lies outside the picture", StringComparison.Ordinal));
        Assert.True(ResidualSpan.Of(far).Half < 0.06);
        // Discs that read 0.1 mm too much: the limit goes right through the readings.
        var near = ResidualPlot.Of(CertificateSamples.Of("between"), Eye.Right);
        Assert.Single(Limits(near.Draw(Width, Letter)));
        Assert.Contains(Words(near), words => words.Contains("dashed", StringComparison.Ordinal));
    }

    [Fact]
    public void What_it_shows_is_said_in_words()
    {
        var certificate = CertificateSamples.Of("set-aside");
        var plot = ResidualPlot.Of(certificate, Eye.Left);
        var words = ResidualWords.Of(plot);
        Assert.StartsWith("OS (left) scale: residuals of 25 readings", words, StringComparison.Ordinal);
        Assert.All(plot.Means, mean => Assert.Contains($"{mean.Disc} ", words, StringComparison.Ordinal));
        var first = certificate.Scales.Left.Band[0];
        Assert.Contains(
            FormattableString.Invariant($"±{first.ExpandedFor95:0.000} mm at {first.Indicated:0.000} mm"),
            words,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(0, 10, 10, "0 1 2 3 4 5 6 7 8 9 10")]
    [InlineData(-0.043, 0.043, 8, "-0.04 -0.02 0 0.02 0.04")]
    [InlineData(1.9, 8.2, 10, "2 3 4 5 6 7 8")]
    [InlineData(4.99, 5.02, 10, "4.99 4.995 5 5.005 5.01 5.015 5.02")]
    public void Lines_of_the_grid_stand_at_round_values(double from, double to, int most, string expected)
    {
        var (values, decimals) = ResidualSpan.Ticks(from, to, most);
        Assert.Equal(
            expected,
            string.Join(' ', values.Select(value => Math.Round((decimal)value, decimals) / 1.000000000m))
        );
    }

    private static IEnumerable<PlotLine> Limits(IEnumerable<PlotShape> shapes) =>
        shapes.OfType<PlotLine>().Where(line => line.IsDashed);

    private static IEnumerable<string> Words(ResidualPlot plot) =>
        plot.Draw(Width, Letter).OfType<PlotWords>().Select(words => words.Text);
}
