namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>
/// A sheet, and the rule by which a report is put on it: what is read in sentences stands in two columns, the letters begin at the first
/// step, and as long as the report does not fit on one sheet the next smaller step is tried. If it does not fit at the smallest either,
/// it flows over several sheets at <see cref="Flowing"/>, each with its number. Nothing is ever cut.
/// </summary>
/// <remarks>
/// The smallest step is where a small x is still 1.2 mm high in plain letters and 1.0 mm in the smallest on A4, and 0.9 mm in all on A5.
/// 1.2 mm and 0.9 mm are what Regulation (EU) No 1169/2011, Article 13 (2) and (3), asks of the print on packs of food and on small ones. It
/// is no rule for reports, but one for small print that everybody must be able to read.
/// </remarks>
/// <param name="Width">Its width, in points (1/72 inch).</param>
/// <param name="Height">Its height, in points.</param>
/// <param name="Margin">What stays free at every edge, in points.</param>
/// <param name="Steps">The steps that are tried, the largest letters first.</param>
/// <param name="Flowing">The step for several sheets.</param>
internal sealed record PdfSheet(
    double Width,
    double Height,
    double Margin,
    IReadOnlyList<PdfStep> Steps,
    PdfStep Flowing
)
{
    private const double PointsPerMillimetre = 72 / 25.4;

    private static readonly PdfSheet A4 = Make(
        (210, 297, 11),
        [
            new(9, 1.21),
            new(8.5, 1.21),
            new(8, 1.2),
            new(7.5, 1.19),
            new(7, 1.17),
            new(6.8, 1.16),
            new(6.5, 1.14),
            new(6.25, 1.13),
        ],
        new(8.5, 1.21)
    );

    private static readonly PdfSheet A5 = Make(
        (148, 210, 7.3),
        [
            new(7.5, 1.21),
            new(7, 1.19),
            new(6.6, 1.17),
            new(6.25, 1.15),
            new(5.9, 1.13),
            new(5.6, 1.13),
            new(5.3, 1.11),
            new(5, 1.1),
            new(4.85, 1.09),
            new(4.75, 1.09),
        ],
        new(7, 1.19)
    );

    /// <summary>The width between the margins.</summary>
    public double Inner => Width - (2 * Margin);

    /// <summary>The sheet of a size.</summary>
    /// <param name="paper">The size.</param>
    public static PdfSheet Of(ReportPaper paper) => paper == ReportPaper.A5 ? A5 : A4;

    private static PdfSheet Make(
        (double Width, double Height, double Margin) millimetres,
        PdfStep[] steps,
        PdfStep flowing
    ) =>
        new(
            millimetres.Width * PointsPerMillimetre,
            millimetres.Height * PointsPerMillimetre,
            millimetres.Margin * PointsPerMillimetre,
            steps,
            flowing
        );
}
