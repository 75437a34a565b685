namespace PupilBridge.Exchange.Certificates.Plots;

/// <summary>A plot of residuals in words.</summary>
internal static class ResidualWords
{
    /// <summary>The same as the plot shows.</summary>
    /// <param name="plot">The plot.</param>
    public static string Of(ResidualPlot plot)
    {
        var text = CertificateTerms.Text;
        List<string> parts = [text.Get("PlotWords.What", CertificateTerms.Of(plot.Eye), plot.Readings.Count)];
        if (plot.Readings.Count > 0)
        {
            var farthest = plot.Readings.MaxBy(point => Math.Abs(point.Residual));
            parts.Add(
                text.Get(
                    "PlotWords.Farthest",
                    Amounts.SignedMillimetres(farthest.Residual),
                    farthest.Disc,
                    Amounts.Millimetres(farthest.Indicated)
                )
            );
        }

        if (plot.Means.Count > 0)
            parts.Add(
                text.Get(
                    "PlotWords.Means",
                    string.Join(
                        "; ",
                        plot.Means.Select(mean =>
                            text.Get("PlotWords.Mean", mean.Disc, Amounts.SignedMillimetres(mean.Residual))
                        )
                    )
                )
            );
        if (plot.Band.Count > 0)
            parts.Add(
                text.Get(
                    "PlotWords.Band",
                    string.Join(
                        "; ",
                        Three(plot.Band)
                            .Select(point =>
                                text.Get(
                                    "PlotWords.BandAt",
                                    Amounts.Uncertainty(point.Expanded),
                                    Amounts.Millimetres(point.Indicated)
                                )
                            )
                    )
                )
            );
        return string.Join(' ', parts);
    }

    private static IEnumerable<BandPoint> Three(IReadOnlyList<BandPoint> band) =>
        [band[0], band[band.Count / 2], band[^1]];
}
