using PupilBridge.Exchange.Certificates;

namespace PupilBridge.Console.Pages.Bench.Certificates;

/// <summary>A certificate in plain words within a page.</summary>
internal static class CertificateWords
{
    /// <summary>The words; where a newer program issued it, what to do.</summary>
    /// <param name="text">The text that was issued, or would be.</param>
    /// <param name="isDraft">Whether it has not been issued.</param>
    public static string Of(string text, bool isDraft)
    {
        try
        {
            return CertificateDocuments.Text(text, isDraft);
        }
        catch (FormatException newer)
        {
            return newer.Message;
        }
    }
}
