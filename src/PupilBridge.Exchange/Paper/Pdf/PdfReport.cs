using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;
using PupilBridge.Clinic.Text;
using PupilBridge.Exchange.Paper.Text;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>
/// A report as PDF: fonts embedded, text that can be marked and searched, tagged for screen readers (headings, tables, lists, and the
/// plot with its words), on sheets by the rule of <see cref="PdfSheet"/>.
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
        var (letters, sheets) = PdfFit.Of(report, sheet, widths);
        using var document = new PdfDocument();
        document.Info.Title = VisibleText.Of($"{report.Title}: {report.Running}");
        document.Info.Subject = VisibleText.Of(report.Running);
        document.Info.Creator = "PupilBridge";
        document.Info.CreationDate = report.Dated.UtcDateTime;
        document.Info.ModificationDate = report.Dated.UtcDateTime;
        var tags = UAManager.ForDocument(document);
        tags.SetDocumentLanguage(HouseLanguage.Current);
        for (var n = 0; n < sheets.Count; n++)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(sheet.Width);
            page.Height = XUnit.FromPoint(sheet.Height);
            using var graphics = XGraphics.FromPdfPage(page);
            var place = new PdfPlace(graphics, tags.StructureBuilder, sheet.Margin, sheet.Inner, letters);
            if (report.Stamp is { } stamp)
                PdfStamp.Draw(place, sheet, stamp);
            Edges(place, sheet, report, n + 1, sheets.Count);
            PdfPages.Draw(place, sheets[n], n == 0 ? sheet.Margin : sheet.Margin + PdfFit.Top(letters));
        }

        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        return SettledFile.Of(bytes.ToArray(), $"{paper}\n{TextReport.Write(report)}");
    }

    /// <summary>What stands at the edges of every sheet, so that a sheet that was lost from its fellows is still known.</summary>
    private static void Edges(PdfPlace place, PdfSheet sheet, ReportDocument report, int page, int pages)
    {
        place.Structure.BeginArtifact();
        var font = place.Letters.Small;
        // What goes below the base line stands above the margin as well.
        var y = sheet.Height - sheet.Margin - (1.2 * font.Size);
        var number = PaperWords.Text.Get("Page", page, pages);
        var numbered = place.Letters.Width(number, font);
        place.Set(number, font, sheet.Margin + sheet.Inner - numbered, y);
        // What is too long for the foot stands whole at the head of the report.
        var running = place.Letters.Line(report.Running, font, sheet.Inner - numbered - (2 * font.Size));
        place.Set(running, font, sheet.Margin, y);
        if (page > 1)
            place.Set(place.Letters.Line(report.Title, font, sheet.Inner), font, sheet.Margin, sheet.Margin);
        place.Structure.End();
    }
}
