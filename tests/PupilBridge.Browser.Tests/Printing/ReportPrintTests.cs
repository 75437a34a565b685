using Microsoft.Playwright;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Report;
using PupilBridge.Exchange.Tests.Report;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace PupilBridge.Browser.Tests.Printing;

/// <summary>The report's page as a browser prints it.</summary>
public sealed class ReportPrintTests(ChromiumFixture fixture) : IClassFixture<ChromiumFixture>
{
    private static readonly Uri Nowhere = new("http://127.0.0.1:9/");

    public static TheoryData<string, ReportPaper> Each
    {
        get
        {
            TheoryData<string, ReportPaper> data = [];
            foreach (var name in Samples.Names)
            {
                data.Add(name, ReportPaper.A4);
                data.Add(name, ReportPaper.A5);
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Each))]
    public async Task An_exam_takes_one_sheet_with_everything_on_it(string name, ReportPaper paper)
    {
        var report = Samples.Report(name);
        var sheet = Assert.Single(await PrintAsync(name, report, paper));
        var (wide, high) = paper == ReportPaper.A4 ? (210, 297) : (148, 210);
        Assert.Equal((wide, high), (Millimetres(sheet.Width), Millimetres(sheet.Height)));
        var letters = Squeeze(string.Concat(sheet.Letters.Select(l => l.Value)));
        Assert.All(Samples.Said(report), text => Assert.Contains(Squeeze(text), letters, StringComparison.Ordinal));
        var least = sheet.Letters.Where(l => l.Value == "x").Min(l => l.BoundingBox.Height) * 25.4 / 72;
        Assert.True(least >= 0.8, $"the smallest x is {least:0.00} mm high");
    }

    [Theory]
    [InlineData(ReportPaper.A4)]
    [InlineData(ReportPaper.A5)]
    public async Task A_long_exam_takes_more_sheets_and_each_says_which_it_is(ReportPaper paper)
    {
        var outgoing = Samples.Of("normal");
        var record = outgoing.Record with
        {
            Notes =
            [
                .. Enumerable
                    .Range(1, 120)
                    .Select(n => new RecordNote($"remark {n} of a long day", "MK", outgoing.Record.Opened.At, n)),
            ],
        };
        var sheets = await PrintAsync(
            "long",
            ReportComposer.Compose(outgoing with { Record = record }, Samples.Setting),
            paper
        );
        Assert.True(sheets.Count > 1);
        for (var n = 0; n < sheets.Count; n++)
        {
            var letters = Squeeze(string.Concat(sheets[n].Letters.Select(l => l.Value)));
            Assert.Contains($"Page{n + 1}of{sheets.Count}", letters, StringComparison.Ordinal);
        }
    }

    private async Task<IReadOnlyList<Page>> PrintAsync(string name, ReportDocument report, ReportPaper paper)
    {
        await using var visitor = await fixture.Chromium.VisitAsync(Nowhere);
        var page = await visitor.Context.NewPageAsync();
        await page.SetContentAsync(HtmlReport.Write(report, paper));
        // The reader of this test does not know what a browser sets as one sign, such as fi.
        await page.AddStyleTagAsync(new PageAddStyleTagOptions { Content = "* { font-variant-ligatures: none }" });
        var file = await page.PdfAsync(new PagePdfOptions { PreferCSSPageSize = true });
        Samples.Keep($"printed-{name}-{paper}.pdf", file);
        using var pdf = PdfDocument.Open(file);
        return [.. pdf.GetPages()];
    }

    private static int Millimetres(double points) => (int)Math.Round(points * 25.4 / 72);

    private static string Squeeze(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));
}
