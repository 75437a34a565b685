using System.Security.Cryptography;
using System.Text;
using AngleSharp.Html.Parser;
using PupilBridge.Exchange.Paper;
using PupilBridge.Exchange.Paper.Html;
using PupilBridge.Exchange.Paper.Text;
using PupilBridge.Exchange.Report;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>Page and plain text say what the report says.</summary>
public sealed class HtmlAndTextTests
{
    public static TheoryData<string> Names => [.. Samples.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_page_says_all_and_carries_nothing_that_runs(string name)
    {
        var report = Samples.Report(name);
        var html = HtmlReport.Write(report, ReportPaper.A4);
        using var page = new HtmlParser(new() { IsStrictMode = true }).ParseDocument(html);
        var said = PdfReading.Squeeze(page.Body!.TextContent);
        Assert.All(
            Samples.Said(report),
            text => Assert.Contains(PdfReading.Squeeze(text), said, StringComparison.Ordinal)
        );
        Assert.Empty(page.QuerySelectorAll("script, link, img, iframe, [style], [onclick], [onload]"));
        Assert.Equal(report.Sections.Count, page.QuerySelectorAll("h2").Length);
        Assert.All(page.QuerySelectorAll("table"), table => Assert.NotNull(table.QuerySelector("caption")));
        Assert.All(page.QuerySelectorAll("th"), head => Assert.NotNull(head.GetAttribute("scope")));
        Assert.All(page.QuerySelectorAll("svg"), svg => Assert.NotEmpty(svg.QuerySelector("desc")!.TextContent));
    }

    [Theory]
    [InlineData(ReportPaper.A4)]
    [InlineData(ReportPaper.A5)]
    public void The_policy_lets_its_own_style_through_and_nothing_else(ReportPaper paper)
    {
        var html = HtmlReport.Write(Samples.Report("normal"), paper);
        using var page = new HtmlParser().ParseDocument(html);
        var style = Assert.Single(page.QuerySelectorAll("style")).TextContent;
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style)));
        var policy = HtmlReport.ContentSecurityPolicy(paper);
        Assert.Contains($"style-src 'sha256-{hash}'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Contains($"size: {paper}", style, StringComparison.Ordinal);
    }

    [Fact]
    public void What_people_wrote_cannot_become_a_part_of_the_page()
    {
        const string Nasty = "</p><script>alert(1)</script><img src=x onerror=alert(2)> & \"quoted\"";
        var outgoing = Samples.Of("normal");
        var record = outgoing.Record with { Notes = [new(Nasty, "MK", outgoing.Record.Opened.At, 5)] };
        var html = HtmlReport.Write(
            ReportComposer.Compose(outgoing with { Record = record }, Samples.Setting),
            ReportPaper.A4
        );
        using var page = new HtmlParser().ParseDocument(html);
        Assert.Empty(page.QuerySelectorAll("script, img"));
        Assert.Contains(Nasty, page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_plain_text_says_all_and_the_plot_in_words(string name)
    {
        var report = Samples.Report(name);
        var text = TextReport.Write(report);
        var said = PdfReading.Squeeze(text);
        var cells = report.Sections.SelectMany(s => s.Parts).OfType<ReportTable>().SelectMany(t => t.Heads).ToHashSet();
        Assert.All(
            Samples.Said(report).Where(piece => !cells.Contains(piece)),
            piece => Assert.Contains(PdfReading.Squeeze(piece), said, StringComparison.Ordinal)
        );
        var figure = report.Sections.SelectMany(s => s.Parts).OfType<ReportFigure>().Single();
        Assert.Contains(PdfReading.Squeeze(figure.Alternative), said, StringComparison.Ordinal);
        Assert.DoesNotContain('\r', text);
    }
}
