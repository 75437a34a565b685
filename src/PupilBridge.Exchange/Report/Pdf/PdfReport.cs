using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.Report.Pdf;

/// <summary>
/// A report as PDF: fonts embedded, text that can be marked and searched, tagged for screen readers (headings, tables, lists, and the
/// plot with its words), on one sheet by the rule of <see cref="PdfSheet"/>.
/// </summary>
public static class PdfReport
{
    /// <summary>Writes a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="paper">The sheet.</param>
    /// <returns>A PDF file.</returns>
    public static byte[] Write(ReportDocument report, ReportPaper paper)
    {
        ArgumentNullException.ThrowIfNull(report);
        ReportFonts.Use();
        var sheet = PdfSheet.Of(paper);
        using var widths = new WordWidths();
        var (letters, sheets) = Lay(report, sheet, widths);
        using var document = new PdfDocument();
        document.Info.Title = $"{report.Title}: {report.Running}";
        document.Info.Subject = report.Running;
        document.Info.Creator = "PupilBridge";
        var tags = UAManager.ForDocument(document);
        tags.SetDocumentLanguage(HouseLanguage.Current);
        for (var n = 0; n < sheets.Count; n++)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(sheet.Width);
            page.Height = XUnit.FromPoint(sheet.Height);
            using var graphics = XGraphics.FromPdfPage(page);
            var place = new PdfPlace(graphics, tags.StructureBuilder, sheet.Margin, sheet.Inner, letters);
            Edges(place, sheet, report, n + 1, sheets.Count);
            Draw(place, sheets[n], n == 0 ? sheet.Margin : sheet.Margin + Top(letters));
        }

        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        return bytes.ToArray();
    }

    private static (PdfLetters, IReadOnlyList<IReadOnlyList<(PdfPiece, double)>>) Lay(
        ReportDocument report,
        PdfSheet sheet,
        WordWidths widths
    )
    {
        foreach (var size in sheet.Letters)
        {
            var (letters, sheets) = Lay(report, sheet, widths, size);
            if (sheets.Count == 1)
                return (letters, sheets);
        }

        return Lay(report, sheet, widths, sheet.Flowing);
    }

    private static (PdfLetters, IReadOnlyList<IReadOnlyList<(PdfPiece, double)>>) Lay(
        ReportDocument report,
        PdfSheet sheet,
        WordWidths widths,
        double size
    )
    {
        var letters = new PdfLetters(size, widths);
        var room = sheet.Height - (2 * sheet.Margin) - Bottom(letters);
        var pieces = new PdfPieces(letters, sheet.Inner, room / 2).Of(report);
        return (letters, PdfPages.Of(pieces, room, room - Top(letters)));
    }

    private static void Draw(PdfPlace place, IReadOnlyList<(PdfPiece Piece, double Y)> pieces, double top)
    {
        PdfGroup? group = null;
        foreach (var (piece, y) in pieces)
        {
            if (group != piece.Group)
            {
                if (group is not null)
                    place.Structure.End();
                if (piece.Group is not null)
                    place.Structure.BeginElement(piece.Group.Tag);
                group = piece.Group;
            }

            piece.Draw(place, top + y);
        }

        // What goes on overleaf is a table or list of its own there, with its head: nothing spans two sheets.
        if (group is not null)
            place.Structure.End();
    }

    /// <summary>What stands at the edges of every sheet, so that a sheet that was lost from its fellows is still known.</summary>
    private static void Edges(PdfPlace place, PdfSheet sheet, ReportDocument report, int page, int pages)
    {
        place.Structure.BeginArtifact();
        var font = place.Letters.Small;
        var y = sheet.Height - sheet.Margin - font.Size;
        place.Set(ReportFonts.Coverage.Printable(report.Running), font, sheet.Margin, y);
        var number = ReportWords.Text.Get("Page", page, pages);
        place.Set(number, font, sheet.Margin + sheet.Inner - place.Letters.Width(number, font), y);
        if (page > 1)
            place.Set(ReportFonts.Coverage.Printable(report.Title), font, sheet.Margin, sheet.Margin);
        place.Structure.End();
    }

    private static double Top(PdfLetters letters) => letters.Small.Size * 2;

    private static double Bottom(PdfLetters letters) => letters.Small.Size * 2;
}
