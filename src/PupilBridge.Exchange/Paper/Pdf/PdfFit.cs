namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>A report laid out: letters, and what stands where on each sheet.</summary>
/// <param name="Letters">The letters.</param>
/// <param name="Sheets">For each sheet its pieces, each with its distance from the top of the room.</param>
internal sealed record PdfFit(PdfLetters Letters, IReadOnlyList<IReadOnlyList<(PdfPiece Piece, double Y)>> Sheets)
{
    /// <summary>Whether all of it stands on one sheet.</summary>
    public bool IsOneSheet => Sheets.Count == 1;

    /// <summary>Lays a report out by the rule of <see cref="PdfSheet"/>.</summary>
    /// <param name="report">The report.</param>
    /// <param name="sheet">The sheet.</param>
    /// <param name="widths">How wide words are.</param>
    public static PdfFit Of(ReportDocument report, PdfSheet sheet, WordWidths widths) =>
        !report.IsLong && Step(report, sheet, widths, 1) is { } step
            ? Of(report, sheet, widths, sheet.Steps[step], hasColumns: true)
            : Of(report, sheet, widths, sheet.Flowing, hasColumns: false);

    /// <summary>At which step a report stands on one sheet.</summary>
    /// <param name="report">The report.</param>
    /// <param name="sheet">The sheet.</param>
    /// <param name="widths">How wide words are.</param>
    /// <param name="share">What share of the sheet's height it may take.</param>
    /// <returns>The place of the step among those of the sheet; null if it fits at none.</returns>
    public static int? Step(ReportDocument report, PdfSheet sheet, WordWidths widths, double share)
    {
        var less = sheet with { Height = (2 * sheet.Margin) + (share * (sheet.Height - (2 * sheet.Margin))) };
        for (var n = 0; n < sheet.Steps.Count; n++)
        {
            if (Of(report, less, widths, sheet.Steps[n], hasColumns: true).IsOneSheet)
                return n;
        }

        return null;
    }

    /// <summary>What the head of a further sheet takes, in points.</summary>
    /// <param name="letters">The letters.</param>
    public static double Top(PdfLetters letters) => letters.Small.Size * 2;

    private static PdfFit Of(ReportDocument report, PdfSheet sheet, WordWidths widths, PdfStep step, bool hasColumns)
    {
        var letters = new PdfLetters(step, widths);
        var room = sheet.Height - (2 * sheet.Margin) - Bottom(letters);
        var pieces = new PdfPieces(letters, sheet.Inner, room / 2)
        {
            HasColumns = hasColumns,
            IsRoomy = report.IsLong,
        }.Of(report);
        return new(letters, PdfPages.Of(pieces, room, room - Top(letters)));
    }

    private static double Bottom(PdfLetters letters) => letters.Small.Size * 1.7;
}
