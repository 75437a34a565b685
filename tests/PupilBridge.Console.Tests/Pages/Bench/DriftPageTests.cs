using System.Net;
using System.Xml.Linq;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages.Bench;

/// <summary>The history of one instrument.</summary>
public sealed class DriftPageTests : IDisposable
{
    private readonly PageBrowser browser = new(ClinicRole.Clinician);

    [Fact]
    public async Task Each_scale_says_its_state_in_words_and_the_plot_has_its_table()
    {
        var page = await browser.GoAsync("/bench/drift/QA-0007");
        var offset = page.QuerySelector("section[aria-labelledby=offset]")!;
        Assert.Equal(
            ["The words of as-usual.", "The words of warning."],
            offset.QuerySelectorAll(".drift-state").Select(one => one.TextContent.Split(": ")[1])
        );
        Assert.Contains("±0.1 mm", offset.TextContent, StringComparison.Ordinal);
        var rows = offset.QuerySelectorAll("tbody tr").Select(row => row.TextContent).ToList();
        Assert.Equal(10, rows.Count);
        Assert.Contains("2026-11-10", rows[0], StringComparison.Ordinal);
        Assert.Contains("calibration, run 2809", rows[0], StringComparison.Ordinal);
        Assert.Contains("+0.039", rows[0], StringComparison.Ordinal);
        Assert.Contains("−0.074", rows[0], StringComparison.Ordinal);
        Assert.Contains("quick check, run 2808", rows[1], StringComparison.Ordinal);
        // A quantity without points has words, and no empty picture.
        Assert.Null(page.QuerySelector("section[aria-labelledby=slope] img"));
        Assert.Contains(
            "exam 2809",
            page.QuerySelector("section[aria-labelledby=home]")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("offset", "Error in mm")]
    [InlineData("home", "Off home in mm")]
    [InlineData("slope", "Slope in mm per mm")]
    public async Task The_plots_are_vectors_with_their_words_in_either_face(string quantity, string axis)
    {
        await browser.GoAsync($"/bench/drift/QA-0007/{quantity}.svg?face=light");
        Assert.Equal("image/svg+xml", browser.Answer.Content.Headers.ContentType!.MediaType);
        var light = browser.Text;
        var words = XDocument.Parse(light).Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value);
        Assert.Contains(axis, words);
        Assert.Contains("limit", words);
        Assert.Equal(quantity != "slope", light.Contains("usual range", StringComparison.Ordinal));
        await browser.GoAsync($"/bench/drift/QA-0007/{quantity}.svg?face=dark");
        Assert.NotEqual(light, browser.Text);
    }

    [Fact]
    public async Task Certificates_stand_there_with_those_that_were_superseded_and_runs_with_their_state()
    {
        var page = await browser.GoAsync("/bench/drift/QA-0007");
        Assert.Equal(
            ["/bench/certificates/13", "/bench/certificates/12"],
            page.QuerySelectorAll("section[aria-labelledby=certificates] th a").Select(way => way.GetAttribute("href"))
        );
        Assert.Contains("Superseded by certificate 13.", browser.Text, StringComparison.Ordinal);
        var runs = page.QuerySelectorAll("section[aria-labelledby=runs] tbody tr")
            .Select(row => row.TextContent)
            .ToList();
        Assert.Contains(runs, row => row.Contains("Broken off", StringComparison.Ordinal));
        Assert.Contains(
            runs,
            row =>
                row.Contains("Quick check", StringComparison.Ordinal)
                || row.Contains("Calibration", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("/bench/drift/QX-9")]
    [InlineData("/bench/drift/QX-9/offset.svg")]
    public async Task An_instrument_that_nobody_knows_is_not_found(string path)
    {
        await browser.GoAsync(path);
        Assert.Equal(HttpStatusCode.NotFound, browser.Status);
    }

    public void Dispose() => browser.Dispose();
}
