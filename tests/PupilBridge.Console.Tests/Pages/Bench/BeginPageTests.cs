using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages.Bench;

/// <summary>What is settled before anything is measured.</summary>
public sealed class BeginPageTests : IDisposable
{
    private readonly PageBrowser browser = new(ClinicRole.Technician);

    [Theory]
    [InlineData("calibration", true)]
    [InlineData("quick-check", true)]
    [InlineData("timing", false)]
    [InlineData("live-repeatability", false)]
    public async Task The_rule_stands_there_before_anything_is_measured_wherever_something_is_decided(
        string kind,
        bool isDecided
    )
    {
        var page = await browser.GoAsync($"/bench/begin/QB-0112?kind={kind}");
        Assert.Equal(
            isDecided,
            page.QuerySelector(".rule")?.TextContent.Contains(SampleBench.Rule, StringComparison.Ordinal) ?? false
        );
    }

    [Fact]
    public async Task A_calibration_begins_with_all_discs_that_stay_ticked_and_leads_to_its_run()
    {
        browser.House.Outcome = _ => new EntryOutcome.Recorded(3001, 3001);
        var page = await browser.GoAsync("/bench/begin/QB-0112?kind=calibration&set=Box%201");
        Assert.Equal(
            ["D2", "D4", "D6", "D8"],
            page.QuerySelectorAll("input[name=disc][checked]").Select(box => box.GetAttribute("value"))
        );
        Assert.Equal("5", page.QuerySelector("input[name=repeats]")!.GetAttribute("value"));
        await browser.SendFormAsync(
            page,
            "#begin-run",
            ("disc", "D2"),
            ("disc", "D4"),
            ("disc", "D8"),
            ("repeats", "4"),
            ("straightness", "0.002"),
            ("temperature", "21.5"),
            ("conditions", "discs in the holder")
        );
        var entry = Assert.IsType<BeginRunEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            ("QB-0112", "calibration", "Box 1", 4, 0.002, 21.5, "discs in the holder"),
            (
                entry.Instrument,
                entry.Kind,
                entry.DiscSet,
                entry.Repeats,
                entry.StraightnessMillimetres,
                entry.TemperatureCelsius,
                entry.Conditions
            )
        );
        Assert.Equal(["D2", "D4", "D8"], entry.Discs!);
        Assert.Equal("/bench/runs/3001", browser.At);
    }

    [Fact]
    public async Task A_quick_check_takes_the_one_disc_next_to_the_middle_of_the_range()
    {
        var page = await browser.GoAsync("/bench/begin/QB-0112?kind=quick-check");
        Assert.Equal(
            ["D4"],
            page.QuerySelectorAll("input[type=radio][checked]").Select(box => box.GetAttribute("value"))
        );
        Assert.Equal("2", page.QuerySelector("input[name=repeats]")!.GetAttribute("value"));
    }

    [Fact]
    public async Task A_timing_run_asks_for_neither_discs_nor_repeats()
    {
        var page = await browser.GoAsync("/bench/begin/QB-0112?kind=timing");
        Assert.Null(page.QuerySelector("input[name=disc], input[name=repeats]"));
        await browser.SendFormAsync(page, "#begin-run", ("temperature", ""), ("conditions", ""));
        var entry = Assert.IsType<BeginRunEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(("timing", null, null, null), (entry.Kind, entry.DiscSet, entry.Discs, entry.Repeats));
    }

    [Theory]
    [InlineData("repeats", "4.5", "no whole number")]
    [InlineData("straightness", "0,002", "comma")]
    [InlineData("temperature", "warm", "no number")]
    public async Task What_is_no_number_is_said_at_its_field(string field, string typed, string words)
    {
        var page = await browser.GoAsync("/bench/begin/QB-0112");
        var again = await browser.SendFormAsync(page, "#begin-run", ("disc", "D2"), (field, typed));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Empty(browser.House.Entered);
        Assert.Contains(words, again.QuerySelector($"#begin-run-{field}-wrong")!.TextContent, StringComparison.Ordinal);
        Assert.Single(again.QuerySelectorAll("input[name=disc][checked]"));
    }

    [Fact]
    public async Task No_disc_at_all_and_an_unknown_instrument_are_said()
    {
        var page = await browser.GoAsync("/bench/begin/QB-0112");
        var again = await browser.SendFormAsync(page, "#begin-run", ("repeats", "5"));
        Assert.NotNull(again.QuerySelector("#begin-run-discs-wrong"));
        await browser.GoAsync("/bench/begin/QX-9");
        Assert.Equal(HttpStatusCode.NotFound, browser.Status);
        Assert.Contains("QX-9", browser.Text, StringComparison.Ordinal);
    }

    public void Dispose() => browser.Dispose();
}
