using System.Globalization;
using System.Text;
using PupilBridge.Exchange.Paper.Pdf;

namespace PupilBridge.Exchange.Paper.Html;

/// <summary>
/// The style of a report's page. A page cannot measure itself without a script, so that the letters in which it is printed are those in
/// which the same report was fitted onto the sheet as PDF, a little smaller for what browsers' own letters take.
/// </summary>
internal static class PrintStyle
{
    private const double Smaller = 0.96;

    /// <summary>What share of the sheet the same report may take as PDF, so that a browser's wider spaces have room.</summary>
    private const double Roomy = 0.95;

    private static readonly string Sheet = Read();

    /// <summary>The style for a sheet, the same for every report.</summary>
    /// <param name="paper">The sheet.</param>
    public static string Of(ReportPaper paper)
    {
        var sheet = PdfSheet.Of(paper);
        var style = new StringBuilder();
        var margin = paper == ReportPaper.A4 ? "10mm 11mm" : "7mm 8mm";
        style.Append(CultureInfo.InvariantCulture, $"@page {{ size: {paper} portrait; margin: {margin}; ");
        style.Append(
            CultureInfo.InvariantCulture,
            $"@bottom-right {{ content: {PageNumber()}; font: 6pt sans-serif; }} }}\n"
        );
        style.Append(Sheet).Append("@media print {\n");
        for (var n = 0; n < sheet.Steps.Count; n++)
            Letters(style, $"step-{n}", sheet.Steps[n], Smaller);
        Letters(style, "flowing", sheet.Flowing, 1);
        return style.Append("}\n").ToString();
    }

    /// <summary>The style of one report: what stands on each of its sheets has no other place than the style.</summary>
    /// <param name="report">The report.</param>
    /// <param name="paper">The sheet.</param>
    public static string Of(ReportDocument report, ReportPaper paper)
    {
        var style = new StringBuilder(Of(paper));
        if (report.IsLong)
            style.Append(
                CultureInfo.InvariantCulture,
                $"@page {{ @bottom-left {{ content: {StyleText.Quoted(report.Running)}; font: 6pt sans-serif; }} }}\n"
            );
        // Fixed, so that a browser prints it on every sheet.
        if (report.Stamp is { } stamp)
            style.Append(
                CultureInfo.InvariantCulture,
                $".stamped::before {{ content: {StyleText.Quoted(stamp)}; font-size: {StampEm(stamp):0.00}em; }}\n"
            );
        return style.ToString();
    }

    /// <summary>Which of the style's letters a report is printed in.</summary>
    /// <param name="report">The report.</param>
    /// <param name="paper">The sheet.</param>
    public static string ClassOf(ReportDocument report, ReportPaper paper)
    {
        var stamped = report.Stamp is null ? "" : " stamped";
        if (report.IsLong)
            return $"flowing long{stamped}";
        ReportFonts.Use();
        var sheet = PdfSheet.Of(paper);
        using var widths = new WordWidths();
        if (PdfFit.Step(report, sheet, widths, 1) is null)
            return $"flowing{stamped}";
        var step = PdfFit.Step(report, sheet, widths, Roomy) ?? sheet.Steps.Count - 1;
        return string.Create(CultureInfo.InvariantCulture, $"fitted step-{step}{stamped}");
    }

    /// <summary>So large that it spans the sheet, in the letters that flow; a bold capital is about 0.7 em wide.</summary>
    private static double StampEm(string stamp) => 90 / (0.7 * Math.Max(8, stamp.Length));

    private static void Letters(StringBuilder style, string name, PdfStep step, double share) =>
        style.Append(
            CultureInfo.InvariantCulture,
            $"  .{name} {{ font-size: {step.Size * share:0.00}pt; line-height: {step.Leading:0.00}; }}\n"
        );

    /// <summary>The number of each sheet, for browsers that set what stands in a margin (CSS Paged Media).</summary>
    private static string PageNumber()
    {
        var words = PaperWords.Text["Page"].Replace("\"", "\\\"", StringComparison.Ordinal);
        return $"\"{words}\""
            .Replace("{0}", "\" counter(page) \"", StringComparison.Ordinal)
            .Replace("{1}", "\" counter(pages) \"", StringComparison.Ordinal);
    }

    private static string Read()
    {
        using var stream = typeof(PrintStyle).Assembly.GetManifestResourceStream("report:report")!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
