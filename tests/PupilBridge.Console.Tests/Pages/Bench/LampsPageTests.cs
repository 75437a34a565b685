using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages.Bench;

/// <summary>The lamps: what a meter showed, typed in, or what the instrument told itself.</summary>
public sealed class LampsPageTests : IDisposable
{
    private readonly PageBrowser browser = new(ClinicRole.Technician);

    [Fact]
    public async Task The_last_balance_stands_there_with_its_uncertainty_and_age()
    {
        var page = await browser.GoAsync("/bench/lamps/QA-0007");
        var facts = page.QuerySelector(".facts")!.TextContent;
        Assert.Contains("+0.013 ± 0.008 log units", facts, StringComparison.Ordinal);
        Assert.Contains("12 days", facts, StringComparison.Ordinal);
        page = await browser.GoAsync("/bench/lamps/QB-0112");
        Assert.Null(page.QuerySelector(".facts"));
        Assert.Contains("never compared", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Readings_are_entered_as_typed()
    {
        var page = await browser.GoAsync("/bench/lamps/QB-0112");
        await browser.SendFormAsync(
            page,
            "#lamps",
            ("right", "402 405; 403"),
            ("left", " 391 393.5 "),
            ("step", "1"),
            ("meter", "LX-2 no. 17")
        );
        var entry = Assert.IsType<LampBalanceEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal([402.0, 405, 403], entry.RightLux);
        Assert.Equal([391, 393.5], entry.LeftLux);
        Assert.Equal(
            ("QB-0112", 1.0, "LX-2 no. 17", null),
            (entry.Instrument, entry.StepLux, entry.Meter, entry.FromRun)
        );
    }

    [Theory]
    [InlineData("right", "402", "two readings")]
    [InlineData("right", "402 4o5", "no number")]
    [InlineData("left", "391,5 392,5", "comma")]
    [InlineData("step", "", "step in lux")]
    public async Task What_is_wrong_is_said_at_its_field(string field, string typed, string words)
    {
        var good = new[] { ("right", "402 405"), ("left", "391 393"), ("step", "1"), ("meter", "") };
        var page = await browser.GoAsync("/bench/lamps/QB-0112");
        page = await browser.SendFormAsync(page, "#lamps", [.. good.Where(one => one.Item1 != field), (field, typed)]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Empty(browser.House.Entered);
        Assert.Contains(words, page.QuerySelector($"#lamps-{field}-wrong")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_the_instrument_told_in_a_run_is_taken_over()
    {
        browser.House.Runs[3002] = SampleBench.Timing with
        {
            Line = SampleBench.Line(3002, "timing", "finished"),
            LampOutput = "+0.010 ± 0.004 log units",
        };
        var page = await browser.GoAsync("/bench/runs/3002");
        await browser.SendFormAsync(page, "#take-lamps");
        var entry = Assert.IsType<LampBalanceEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(("QA-0007", 3002), (entry.Instrument, entry.FromRun));
        Assert.Empty(entry.RightLux);
    }

    public void Dispose() => browser.Dispose();
}
