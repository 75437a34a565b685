using PupilBridge.Exams.Bench.Certificates;

namespace PupilBridge.Exchange.Certificates.Plots;

/// <summary>How far single readings lie off the line.</summary>
internal static class Residuals
{
    /// <summary>The word of a reading that counts.</summary>
    public const string Counts = "counts";

    /// <summary>The correction that a reading asks for, less the line's.</summary>
    /// <param name="certificate">The certificate, for the discs.</param>
    /// <param name="scale">The scale, for its line.</param>
    /// <param name="reading">The reading.</param>
    /// <returns>In mm; null where nothing says which disc was read.</returns>
    public static double? Of(Certificate certificate, CertifiedScale scale, CertifiedReading reading) =>
        reading.State is Counts or Parts.ReadingsAnnex.SetAside
        && certificate.Discs.Items.FirstOrDefault(disc => disc.Name == reading.Disc) is { } disc
            ? disc.Diameter - reading.Indicated - LineAt(scale.Line, reading.Indicated)
            : null;

    /// <summary>The line's correction at a place.</summary>
    /// <param name="line">The line.</param>
    /// <param name="indicated">The indicated diameter, in mm.</param>
    /// <returns>In mm.</returns>
    public static double LineAt(CertifiedLine line, double indicated) => line.Y1 + (line.Y2 * (indicated - line.D0));
}
