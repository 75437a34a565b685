using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Pdf;
using PupilBridge.Exchange.Paper.Text;

namespace PupilBridge.Exchange.Certificates;

/// <summary>
/// A calibration certificate as people read it, made from nothing but the text that was issued. The same text gives the same documents for
/// good; a draft is marked on every sheet and bears no number.
/// </summary>
public static class CertificateDocuments
{
    /// <summary>Writes it as PDF on A4, with fonts embedded and tagged for screen readers.</summary>
    /// <param name="json">The text that was issued, or would be.</param>
    /// <param name="isDraft">Whether it has not been issued.</param>
    /// <param name="to">Where to; it is written to in one piece and stays open.</param>
    /// <exception cref="FormatException">The text is no certificate, or one of a newer form.</exception>
    public static void Pdf(string json, bool isDraft, Stream to)
    {
        ArgumentNullException.ThrowIfNull(to);
        to.Write(PdfReport.Write(Compose(json, isDraft), ReportPaper.A4));
    }

    /// <summary>Writes it as one HTML file without a script, to be printed on A4.</summary>
    /// <param name="json">The text that was issued, or would be.</param>
    /// <param name="isDraft">Whether it has not been issued.</param>
    /// <returns>The page.</returns>
    /// <exception cref="FormatException">The text is no certificate, or one of a newer form.</exception>
    public static string Html(string json, bool isDraft) => HtmlReport.Write(Compose(json, isDraft), ReportPaper.A4);

    /// <summary>The content security policy with which that page is served: its own style, and nothing else.</summary>
    /// <param name="json">The text that was issued, or would be.</param>
    /// <param name="isDraft">Whether it has not been issued.</param>
    /// <returns>The value of the header.</returns>
    /// <exception cref="FormatException">The text is no certificate, or one of a newer form.</exception>
    public static string HtmlPolicy(string json, bool isDraft) =>
        HtmlReport.ContentSecurityPolicy(Compose(json, isDraft), ReportPaper.A4);

    /// <summary>Writes it as plain text for a terminal or a screen reader, the plots in words.</summary>
    /// <param name="json">The text that was issued, or would be.</param>
    /// <param name="isDraft">Whether it has not been issued.</param>
    /// <returns>Lines of at most 96 characters, as far as words allow.</returns>
    /// <exception cref="FormatException">The text is no certificate, or one of a newer form.</exception>
    public static string Text(string json, bool isDraft) => TextReport.Write(Compose(json, isDraft));

    /// <summary>What all three say.</summary>
    internal static ReportDocument Compose(string json, bool isDraft) =>
        CertificateComposer.Compose(CertificateText.Read(json), json, isDraft);
}
