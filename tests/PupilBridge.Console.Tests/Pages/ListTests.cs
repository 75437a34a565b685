using System.Net;
using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

public sealed class ListTests : IDisposable
{
    private readonly PageBrowser browser = new(time: Clock());

    [Fact]
    public async Task Without_a_question_it_is_todays_exams_by_the_clinics_clock()
    {
        await browser.GoAsync("/exams");
        var search = Assert.Single(browser.House.Searches);
        Assert.Equal(new DateTimeOffset(2026, 11, 25, 0, 0, 0, TimeSpan.FromHours(2)), search.OpenedFrom);
        Assert.Equal(new DateTimeOffset(2026, 11, 26, 0, 0, 0, TimeSpan.FromHours(2)), search.OpenedBefore);
    }

    [Fact]
    public async Task Every_field_of_the_search_reaches_the_desk_and_the_way_further_keeps_them()
    {
        browser.House.Next = "after this";
        var page = await browser.GoAsync(
            "/exams?patient=Q-1001&examiner=mk&from=2026-01-02&to=2026-02-03&status=signed&finding=gap"
        );
        var search = Assert.Single(browser.House.Searches);
        Assert.Equal(
            ("Q-1001", "mk", "signed", "gap", null),
            (search.Patient, search.Examiner, search.Status, search.Finding, search.After)
        );
        Assert.Equal(new DateTimeOffset(2026, 2, 4, 0, 0, 0, TimeSpan.FromHours(2)), search.OpenedBefore);
        Assert.Equal("gap", page.QuerySelector("#search-finding option[selected]")!.GetAttribute("value"));
        await browser.GoAsync(page.QuerySelector("a[rel=next]")!.GetAttribute("href")!);
        Assert.Equal(search with { After = "after this" }, browser.House.Searches[^1]);
    }

    [Fact]
    public async Task A_search_with_all_fields_empty_looks_through_all_days_on_every_page()
    {
        browser.House.Next = "2";
        var page = await browser.GoAsync("/exams?patient=&examiner=&from=&to=&status=&finding=");
        Assert.Null(browser.House.Searches[^1].OpenedFrom);
        await browser.GoAsync(page.QuerySelector("a[rel=next]")!.GetAttribute("href")!);
        Assert.Equal((null, "2"), (browser.House.Searches[^1].OpenedFrom, browser.House.Searches[^1].After));
    }

    [Fact]
    public async Task A_date_that_is_none_is_refused_beside_its_field()
    {
        var page = await browser.GoAsync("/exams?from=31.12.2026");
        Assert.Empty(browser.House.Searches);
        Assert.Contains(
            "‘31.12.2026’ is no date",
            page.QuerySelector("#search-from-wrong")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task The_review_list_has_those_before_drops_on_top_with_the_reasons()
    {
        var page = await browser.GoAsync("/review");
        var tables = page.QuerySelectorAll("table.exams");
        Assert.Equal(2, tables.Length);
        Assert.Contains("poor direct response, OS (left): 1.5+", tables[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("/exams/2001", tables[0].InnerHtml, StringComparison.Ordinal);
        Assert.Contains("/exams/2400", tables[1].InnerHtml, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_day_shows_who_comes_when_and_what_became_of_them()
    {
        var page = await browser.GoAsync("/day?day=2026-11-24");
        Assert.Contains("2026-11-24", page.QuerySelector("h1")!.TextContent, StringComparison.Ordinal);
        var rows = page.QuerySelectorAll("tbody tr").Select(row => row.TextContent).ToList();
        Assert.Contains("ready for review", rows[0], StringComparison.Ordinal);
        Assert.Contains("none yet", rows[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_list_with_faults_is_refused_line_by_line()
    {
        browser.House.Import = new DayListImport(
            false,
            default,
            0,
            0,
            "Nothing was taken.",
            ["Line 3: no number.", "Line 7: '25:00' is no time."]
        );
        var page = await browser.GoAsync("/day");
        var again = await browser.SendFileAsync(
            page,
            "#import-day",
            "csv",
            "number,time\nQ-1,25:00",
            ("day", "2026-11-25")
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Equal(
            ["Line 3: no number.", "Line 7: '25:00' is no time."],
            again.QuerySelectorAll(".faults li").Select(item => item.TextContent)
        );
        Assert.Equal("number,time\nQ-1,25:00", browser.House.ImportedText);
    }

    [Fact]
    public async Task A_list_that_was_taken_is_shown()
    {
        var page = await browser.GoAsync("/day?day=2026-11-20");
        var next = await browser.SendFileAsync(page, "#import-day", "csv", "Q-1001,09:00", ("day", "2026-11-25"));
        Assert.Equal("/day?day=2026-11-25", browser.At);
        Assert.Contains("2 patients", next.QuerySelector(".said")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_import_without_a_file_says_so()
    {
        var page = await browser.GoAsync("/day");
        var again = await browser.SendFileAsync(page, "#import-day", "csv", "", ("day", "2026-11-25"));
        Assert.Null(browser.House.ImportedText);
        Assert.Contains(
            "not empty",
            again.QuerySelector("#import-day-csv-wrong")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_lane_shows_its_patient_and_an_instrument_its_fault()
    {
        var lanes = await browser.GoAsync("/");
        var card = lanes.QuerySelector(".lane-card")!.TextContent;
        Assert.Contains("Q-1002", card, StringComparison.Ordinal);
        Assert.Contains("Grade the direct response", card, StringComparison.Ordinal);
        Assert.Equal("/lane/QA-0007", lanes.QuerySelector(".lane-card a")!.GetAttribute("href"));
        var instruments = await browser.GoAsync("/instruments");
        Assert.Contains("Lamp OS does not answer.", instruments.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Add its user to the group", instruments.Body!.TextContent, StringComparison.Ordinal);
    }

    public void Dispose() => browser.Dispose();

    /// <summary>A clinic two hours east of Greenwich, shortly after its midnight: there it is the 25th, in UTC still the 24th.</summary>
    private static FakeTimeProvider Clock()
    {
        var time = new FakeTimeProvider(new DateTimeOffset(2026, 11, 24, 22, 30, 0, TimeSpan.Zero));
        time.SetLocalTimeZone(TimeZoneInfo.CreateCustomTimeZone("quay", TimeSpan.FromHours(2), "quay", "quay"));
        return time;
    }
}
