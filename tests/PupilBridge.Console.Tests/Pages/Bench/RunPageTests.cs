using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages.Bench;

/// <summary>The guided run, as a technician sees it and as those see it who only look.</summary>
public sealed class RunPageTests : IDisposable
{
    private readonly PageBrowser browser = new(ClinicRole.Technician);

    [Fact]
    public async Task One_thing_is_asked_for_with_how_far_the_run_is_and_the_last_reading_as_recorded()
    {
        var page = await browser.GoAsync("/bench/runs/3001");
        Assert.Equal("Disc D4 · 4.002 mm · right scale (OD)", page.QuerySelector("#asked-words")!.TextContent.Trim());
        Assert.Contains("2 of 40", page.QuerySelector(".progress")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(
            "4.010 mm by the left scale (OS)",
            page.QuerySelector(".last-reading")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.NotNull(page.QuerySelector("script[src='/assets/bench/run.js']"));
        Assert.Equal("/bench/runs/3001/events", page.QuerySelector("#following")!.GetAttribute("data-events"));
    }

    [Fact]
    public async Task A_reading_far_off_is_pointed_out_and_counts_until_a_person_sets_it_aside()
    {
        var page = await browser.GoAsync("/bench/runs/3001");
        var rows = page.QuerySelectorAll(".readings tbody tr")
            .ToDictionary(row => row.QuerySelector("th")!.TextContent.Trim(), row => row.TextContent);
        Assert.Contains("far off", rows["3014"], StringComparison.Ordinal);
        Assert.Contains("counts", rows["3014"], StringComparison.Ordinal);
        Assert.Contains("Set 3014 aside", rows["3014"], StringComparison.Ordinal);
        Assert.Contains("RS: the disc slipped", rows["3018"], StringComparison.Ordinal);
        Assert.Contains("Count 3018 again", rows["3018"], StringComparison.Ordinal);
        Assert.DoesNotContain("far off", rows["3010"], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3014, true)]
    [InlineData(3018, false)]
    public async Task A_reading_is_set_aside_or_counts_again_only_with_a_reason(long reading, bool isSetAside)
    {
        var page = await browser.GoAsync($"/bench/runs/3001?reading={reading}");
        page = await browser.SendFormAsync(page, "#mark", ("reason", " "));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.NotNull(page.QuerySelector("#mark-reason-wrong"));
        Assert.Empty(browser.House.Entered);
        await browser.SendFormAsync(page, "#mark", ("reason", "the disc stood askew"));
        var entry = Assert.IsType<MarkReadingEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            (3001L, reading, isSetAside, "the disc stood askew", "drv"),
            (entry.Run, entry.Reading, entry.IsSetAside, entry.Reason, entry.Who)
        );
    }

    [Fact]
    public async Task A_scale_says_its_statement_or_why_nothing_can_be_said_yet()
    {
        var page = await browser.GoAsync("/bench/runs/3001");
        var scales = page.QuerySelectorAll(".scale").Select(scale => scale.TextContent).ToList();
        Assert.Contains("+0.031 mm ± 0.012 mm", scales[0], StringComparison.Ordinal);
        Assert.Contains("repeatability of one reading", scales[0], StringComparison.Ordinal);
        Assert.Contains("At least 3 discs", scales[1], StringComparison.Ordinal);
        Assert.DoesNotContain("pass", scales[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refused_positions_incidents_and_an_instrument_in_anothers_place_are_said()
    {
        browser.House.Runs[3001] = SampleBench.Calibration with
        {
            InstrumentLine = "lost",
            OtherInstrument = "QA-0008",
        };
        var page = await browser.GoAsync("/bench/runs/3001");
        Assert.Contains("QA-0008", page.QuerySelector("#live [role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("TooSmall", browser.Text, StringComparison.Ordinal);
        Assert.Contains("3 events were lost", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_timing_run_tells_what_to_do_on_the_dial_and_shows_its_table_as_it_grows()
    {
        var page = await browser.GoAsync("/bench/runs/3002");
        Assert.Equal("Turn the dial to swing short", page.QuerySelector("#asked-words")!.TextContent.Trim());
        Assert.Contains("direct: 1000 ms, 3 stimuli each; so far OD 3, OS 3", browser.Text, StringComparison.Ordinal);
        Assert.Contains("too long", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_study_on_a_person_asks_for_eye_and_light_and_takes_the_room_light()
    {
        var page = await browser.GoAsync("/bench/runs/3003");
        Assert.Equal("A pupil · left scale (OS) · dim light", page.QuerySelector("#asked-words")!.TextContent.Trim());
        await browser.SendFormAsync(page, "#room-light", ("light", "dim"));
        var entry = Assert.IsType<RunRoomLightEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal((3003L, "dim"), (entry.Run, entry.Light));
    }

    [Fact]
    public async Task A_run_is_finished_or_given_up_with_a_reason()
    {
        var page = await browser.GoAsync("/bench/runs/3001");
        Assert.Contains("Not all readings", page.QuerySelector("#finish")!.TextContent, StringComparison.Ordinal);
        await browser.SendFormAsync(page, "#finish");
        page = await browser.GoAsync("/bench/runs/3001");
        page = await browser.SendFormAsync(page, "#give-up", ("reason", ""));
        Assert.NotNull(page.QuerySelector("#give-up-reason-wrong"));
        await browser.SendFormAsync(page, "#give-up", ("reason", "the holder broke"));
        Assert.Equal(
            [(true, null), (false, "the holder broke")],
            browser.House.Entered.Cast<EndRunEntry>().Select(entry => (entry.IsFinished, entry.Reason))
        );
    }

    [Fact]
    public async Task A_run_that_was_broken_off_says_why_asks_for_nothing_and_can_be_finished_with_what_there_is()
    {
        var page = await browser.GoAsync("/bench/runs/3004");
        Assert.Contains("The instrument was switched off.", browser.Text, StringComparison.Ordinal);
        Assert.Null(page.QuerySelector("#asked-words"));
        Assert.Null(page.QuerySelector("script[src='/assets/bench/run.js']"));
        Assert.NotNull(page.QuerySelector("#finish"));
    }

    [Fact]
    public async Task A_study_that_found_something_can_be_adopted_once()
    {
        var finished = SampleBench.LiveStudy with
        {
            Line = SampleBench.Line(3003, "live-repeatability", "finished"),
            Live = new(0.081, 16, 0.224, "Settings scatter by 0.081 mm.", false),
        };
        browser.House.Runs[3003] = finished;
        var page = await browser.GoAsync("/bench/runs/3003");
        await browser.SendFormAsync(page, "#adopt");
        Assert.Equal(3003, Assert.IsType<AdoptRepeatabilityEntry>(Assert.Single(browser.House.Entered)).Run);
        browser.House.Runs[3003] = finished with { Live = finished.Live! with { IsAdopted = true } };
        page = await browser.GoAsync("/bench/runs/3003");
        Assert.Null(page.QuerySelector("#adopt"));
    }

    [Fact]
    public async Task Those_who_only_look_see_the_run_and_can_do_nothing_about_it()
    {
        browser.Roles = ClinicRole.Examiner;
        var page = await browser.GoAsync("/bench/runs/3001?reading=3014");
        Assert.Equal(HttpStatusCode.OK, browser.Status);
        Assert.NotNull(page.QuerySelector("#asked-words"));
        Assert.Empty(page.QuerySelectorAll("main form"));
        Assert.DoesNotContain("Set 3014 aside", browser.Text, StringComparison.Ordinal);
        page = await browser.GoAsync("/bench");
        Assert.Empty(page.QuerySelectorAll("a[href^='/bench/begin'], a[href^='/bench/lamps'], a[href='/bench/discs']"));
    }

    [Fact]
    public async Task The_page_is_told_of_changes_by_events()
    {
        await browser.GoAsync("/bench/runs/3001/events");
        Assert.Equal("text/event-stream", browser.Answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("event: board\ndata: {\"readings\":4}", browser.Text, StringComparison.Ordinal);
    }

    public void Dispose() => browser.Dispose();
}
