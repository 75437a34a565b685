using System.Runtime.CompilerServices;
using Microsoft.Playwright;
using PupilBridge.Browser.Looks;
using PupilBridge.Exchange.Certificates;
using PupilBridge.Exchange.Tests.Report;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace PupilBridge.Browser.Tests.Printing;

/// <summary>The certificate's page as a browser shows and prints it.</summary>
public sealed class CertificatePrintTests(ChromiumFixture fixture) : IClassFixture<ChromiumFixture>
{
    private static readonly Uri Nowhere = new("http://127.0.0.1:9/");

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Every_sheet_says_which_it_is_and_whether_it_is_a_draft(bool isDraft)
    {
        await using var visitor = await fixture.Chromium.VisitAsync(Nowhere);
        var page = await ShowAsync(visitor.Context, isDraft);
        var file = await page.PdfAsync(new PagePdfOptions { PreferCSSPageSize = true });
        Samples.Keep($"printed-certificate{(isDraft ? "-draft" : "")}.pdf", file);
        using var pdf = PdfDocument.Open(file);
        var sheets = pdf.GetPages().ToList();
        Assert.True(sheets.Count > 2);
        for (var n = 0; n < sheets.Count; n++)
        {
            Assert.Equal((210, 297), (Millimetres(sheets[n].Width), Millimetres(sheets[n].Height)));
            var letters = Squeeze(sheets[n].Letters);
            Assert.Contains($"Page{n + 1}of{sheets.Count}", letters, StringComparison.Ordinal);
            var stamps = letters.Split("DRAFT,NOTACERTIFICATE").Length - 1;
            if (isDraft)
                Assert.True(stamps >= 2, $"sheet {n + 1} is marked {stamps} times: {letters}");
            else
            {
                Assert.Equal(0, stamps);
                Assert.Contains("Calibrationcertificate12,instrumentQ7,issued", letters, StringComparison.Ordinal);
            }
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Everyone_can_use_the_page(bool isDraft)
    {
        await using var visitor = await fixture.Chromium.VisitAsync(Nowhere);
        Assert.Empty(await AxeCheck.RunAsync(await ShowAsync(visitor.Context, isDraft)));
    }

    private static async Task<IPage> ShowAsync(IBrowserContext context, bool isDraft)
    {
        var page = await context.NewPageAsync();
        var issued = await File.ReadAllTextAsync(Golden());
        await page.SetContentAsync(CertificateDocuments.Html(issued.TrimEnd('\n'), isDraft));
        // The reader of this test does not know what a browser sets as one sign, such as fi.
        await page.AddStyleTagAsync(new PageAddStyleTagOptions { Content = "* { font-variant-ligatures: none }" });
        return page;
    }

    private static int Millimetres(double points) => (int)Math.Round(points * 25.4 / 72);

    private static string Squeeze(IEnumerable<Letter> letters) =>
        string.Concat(letters.SelectMany(letter => letter.Value).Where(c => !char.IsWhiteSpace(c)));

    private static string Golden([CallerFilePath] string here = "") =>
        Path.Combine(
            Path.GetDirectoryName(here)!,
            "..",
            "..",
            "PupilBridge.Exchange.Tests",
            "Certificates",
            "Golden",
            "certificate.json"
        );
}
