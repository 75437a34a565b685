using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using AngleSharp.Html.Parser;
using PupilBridge.Exchange.Certificates;
using PupilBridge.Exchange.Tests.Report;
using UglyToad.PdfPig;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>Certificates as their readers have them, read without the code that wrote them.</summary>
internal static partial class CertificateReading
{
    public static byte[] Pdf(string json, bool isDraft = false)
    {
        using var file = new MemoryStream();
        CertificateDocuments.Pdf(json, isDraft, file);
        return file.ToArray();
    }

    /// <summary>The words of the PDF, sheet after sheet, each apart from its neighbours.</summary>
    public static string Words(byte[] file)
    {
        using var pdf = PdfDocument.Open(file);
        return string.Join(' ', pdf.GetPages().SelectMany(page => page.GetWords()).Select(word => word.Text));
    }

    /// <summary>The words of the page, each cell apart from its neighbours.</summary>
    public static string Words(string html)
    {
        using var page = new HtmlParser().ParseDocument(html);
        return string.Join(
            ' ',
            page.QuerySelectorAll("h1, h2, h3, p, li, dt, dd, th, td, caption, desc").Select(e => e.TextContent)
        );
    }

    /// <summary>Every number of a certificate's text with the place at which it stands, such as <c>scales.right.line.y1</c>.</summary>
    public static IEnumerable<(string Path, decimal Value)> Numbers(string json)
    {
        using var document = JsonDocument.Parse(json);
        return [.. Numbers("", document.RootElement)];
    }

    /// <summary>All numbers that a text names, as they are written.</summary>
    public static IReadOnlyList<(decimal Value, int Decimals)> NumbersIn(string text) =>
        [
            .. Number()
                .Matches(text.Replace('\u2212', '-'))
                .Select(match =>
                    (
                        decimal.Parse(match.Value, CultureInfo.InvariantCulture),
                        match.Value.Contains('.', StringComparison.Ordinal)
                            ? match.Value.Length - match.Value.IndexOf('.', StringComparison.Ordinal) - 1
                            : 0
                    )
                )
                .Distinct(),
        ];

    /// <summary>
    /// Whether a value is written: as a whole number, or rounded right to 0.001, or to two significant digits at least. Measures of
    /// scatter and uncertainty want the latter.
    /// </summary>
    public static bool IsWritten(
        (string Path, decimal Value) number,
        IReadOnlyList<(decimal Value, int Decimals)> written
    )
    {
        var wantsDigits = Scatter().IsMatch(number.Path);
        return written.Any(one =>
            number.Value == one.Value
            || (
                Math.Abs(number.Value - one.Value) <= 0.5000001m * (decimal)Math.Pow(10, -one.Decimals)
                && (
                    (one.Decimals >= 3 && !wantsDigits)
                    || Math.Abs(one.Value) * (decimal)Math.Pow(10, one.Decimals) >= 10
                )
            )
        );
    }

    /// <summary>Keeps all forms of a sample for people to look at; see <see cref="Samples.Keep"/>.</summary>
    public static void Keep(string name, string json)
    {
        foreach (var isDraft in (bool[])[false, true])
        {
            var file = $"{(isDraft ? "draft" : "certificate")}-{name}";
            Samples.Keep($"{file}.pdf", Pdf(json, isDraft));
            Samples.Keep($"{file}.html", System.Text.Encoding.UTF8.GetBytes(CertificateDocuments.Html(json, isDraft)));
            Samples.Keep($"{file}.json", System.Text.Encoding.UTF8.GetBytes(json));
            Samples.Keep($"{file}.txt", System.Text.Encoding.UTF8.GetBytes(CertificateDocuments.Text(json, isDraft)));
        }
    }

    private static IEnumerable<(string, decimal)> Numbers(string path, JsonElement element) =>
        element.ValueKind switch
        {
            JsonValueKind.Object => element
                .EnumerateObject()
                .SelectMany(member => Numbers($"{path}.{member.Name}".TrimStart('.'), member.Value)),
            JsonValueKind.Array => element.EnumerateArray().SelectMany((item, n) => Numbers($"{path}[{n}]", item)),
            JsonValueKind.Number => [(path, (decimal)element.GetDouble())],
            _ => [],
        };

    [GeneratedRegex("ncertainty|xpanded|eviation$|epeatability$|straightness")]
    private static partial Regex Scatter();

    [GeneratedRegex(@"(?<![\w.:])-?\d+(\.\d+)?")]
    private static partial Regex Number();
}
