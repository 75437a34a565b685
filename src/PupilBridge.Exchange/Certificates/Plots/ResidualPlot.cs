using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper.Plots;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Certificates.Plots;

/// <summary>A reading, or the mean of a disc, in the plot.</summary>
/// <param name="Disc">The disc.</param>
/// <param name="Indicated">The indicated diameter, in mm.</param>
/// <param name="Residual">The correction that it asks for, less the line's, in mm.</param>
internal readonly record struct ResidualPoint(string Disc, double Indicated, double Residual);

/// <summary>Half the width of the line's uncertainty band at a place.</summary>
/// <param name="Indicated">The indicated diameter, in mm.</param>
/// <param name="Expanded">The expanded uncertainty of the line's correction for 95 %, in mm.</param>
internal readonly record struct BandPoint(double Indicated, double Expanded);

/// <summary>
/// How far the readings of one scale lie off its correction line, with the line's uncertainty around it, and where the error before
/// correction meets the limit.
/// </summary>
internal sealed record ResidualPlot : PlotDrawing
{
    /// <inheritdoc/>
    public override string Title => CertificateTerms.Text.Get("Plot.Title", CertificateTerms.Of(Eye));

    /// <summary>Which scale.</summary>
    public required Eye Eye { get; init; }

    /// <summary>Every reading that counts.</summary>
    public required IReadOnlyList<ResidualPoint> Readings { get; init; }

    /// <summary>The means of the discs.</summary>
    public required IReadOnlyList<ResidualPoint> Means { get; init; }

    /// <summary>The uncertainty of the line over the range.</summary>
    public required IReadOnlyList<BandPoint> Band { get; init; }

    /// <summary>The line.</summary>
    public required CertifiedLine Line { get; init; }

    /// <summary>The limit of the error before correction, to either side, in mm.</summary>
    public required double Limit { get; init; }

    /// <summary>The plot of one scale.</summary>
    /// <param name="certificate">The certificate.</param>
    /// <param name="eye">Which scale.</param>
    public static ResidualPlot Of(Certificate certificate, Eye eye)
    {
        var scale = certificate.Scales[eye];
        return new()
        {
            Eye = eye,
            Readings =
            [
                .. scale
                    .Readings.Where(reading => reading.State == Residuals.Counts)
                    .Select(reading => (reading, Residual: Residuals.Of(certificate, scale, reading)))
                    .Where(one => one.Residual is not null)
                    .Select(one => new ResidualPoint(one.reading.Disc, one.reading.Indicated, one.Residual!.Value)),
            ],
            Means = [.. scale.Means.Select(mean => new ResidualPoint(mean.Disc, mean.Indicated, mean.Residual))],
            Band = [.. scale.Band.Select(point => new BandPoint(point.Indicated, point.ExpandedFor95))],
            Line = scale.Line,
            Limit = certificate.Rule.Limit,
        };
    }

    /// <summary>
    /// How far off the line a reading lies whose error before correction is just the limit. The error is the correction asked for with
    /// its sign turned, so that the upper limit of the error is the lower one here.
    /// </summary>
    /// <param name="side">+1 for the line above, −1 for the one below.</param>
    /// <param name="indicated">The indicated diameter, in mm.</param>
    /// <returns>In mm.</returns>
    public double LimitAt(int side, double indicated) => (side * Limit) - Residuals.LineAt(Line, indicated);

    /// <inheritdoc/>
    internal override double Height(double letter) => ResidualDrawing.Height(letter);

    /// <inheritdoc/>
    internal override IReadOnlyList<PlotShape> Draw(double width, double letter) =>
        ResidualDrawing.Of(this, width, letter);
}
