namespace PupilBridge.Exchange.Report.Pdf;

/// <summary>
/// A sheet, and the rule by which a report is put on it: the letters begin at the first size, and as long as the report does not fit
/// on one sheet the next smaller one is tried. If it does not fit at the smallest either, it flows over several sheets at
/// <see cref="Flowing"/>, each with its number. Nothing is ever cut.
/// </summary>
/// <param name="Width">Its width, in points (1/72 inch).</param>
/// <param name="Height">Its height, in points.</param>
/// <param name="Margin">What stays free at every edge, in points.</param>
/// <param name="Letters">The sizes that are tried, in points, the largest first.</param>
/// <param name="Flowing">The size for several sheets, in points.</param>
internal sealed record PdfSheet(
    double Width,
    double Height,
    double Margin,
    IReadOnlyList<double> Letters,
    double Flowing
)
{
    private const double PointsPerMillimetre = 72 / 25.4;

    private static readonly PdfSheet A4 = Make(210, 297, 13, [9, 8.5, 8, 7.5, 7], 8.5);
    private static readonly PdfSheet A5 = Make(148, 210, 9, [7.5, 7, 6.5], 7);

    /// <summary>The width between the margins.</summary>
    public double Inner => Width - (2 * Margin);

    /// <summary>The sheet of a size.</summary>
    /// <param name="paper">The size.</param>
    public static PdfSheet Of(ReportPaper paper) => paper == ReportPaper.A5 ? A5 : A4;

    private static PdfSheet Make(double width, double height, double margin, double[] letters, double flowing) =>
        new(width * PointsPerMillimetre, height * PointsPerMillimetre, margin * PointsPerMillimetre, letters, flowing);
}
