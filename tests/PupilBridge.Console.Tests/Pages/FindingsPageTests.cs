using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

public sealed class FindingsPageTests : IDisposable
{
    private readonly PageBrowser browser = new();

    [Fact]
    public async Task What_is_met_stands_open_with_its_numbers_and_the_way_to_its_readings()
    {
        var page = await browser.GoAsync("/exams/2001");
        var met = page.QuerySelector(".finding.met")!;
        Assert.Null(met.Closest("details"));
        Assert.Contains("0.8 ± 0.28 mm (k = 2), limit 0.4 mm", met.TextContent, StringComparison.Ordinal);
        Assert.Contains("A small one is no reassurance.", met.TextContent, StringComparison.Ordinal);
        Assert.Contains("Lam, Thompson, Corbett 1987", met.TextContent, StringComparison.Ordinal);
        Assert.Contains("To ask: Since when?", met.TextContent, StringComparison.Ordinal);
        Assert.Equal(
            ["/exams/2001/raw/11", "/exams/2001/raw/12"],
            met.QuerySelectorAll("a.raw").Select(way => way.GetAttribute("href"))
        );
    }

    [Fact]
    public async Task What_was_not_examined_is_folded_and_counted_and_stands_last()
    {
        var page = await browser.GoAsync("/exams/2001");
        Assert.Equal(
            ["anisocoria-descriptive", "dilation-lag", "rapd", "rapd-log-units"],
            page.QuerySelectorAll("[data-criterion]").Select(one => one.GetAttribute("data-criterion"))
        );
        var folded = page.QuerySelector("details.not-examined")!;
        Assert.False(folded.HasAttribute("open"));
        Assert.Equal("Not examined: 1", folded.QuerySelector("summary")!.TextContent);
    }

    [Fact]
    public async Task No_criterion_met_is_called_no_reassurance()
    {
        var record = browser.House.Records[2001];
        browser.House.Records[2001] = record with { Exam = record.Exam with { Findings = [] } };
        var section = (await browser.GoAsync("/exams/2001")).QuerySelector("section.criteria")!;
        Assert.Contains("That is no reassurance.", section.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_filter_is_asked_for_by_what_comes_next_and_both_eyes_worse_can_be_said_and_refused()
    {
        WithDefect();
        browser.House.Outcome = _ => new EntryOutcome.Refused("Both eyes cannot be the worse one.", "Judge again.");
        var page = await browser.GoAsync("/exams/2001");
        Assert.Equal("Hold the 0.3 filter.", page.QuerySelector("#deed-filter .prompt")!.TextContent);
        Assert.Equal("0.3", page.QuerySelector("#filter-filter option[selected]")!.GetAttribute("value"));
        Assert.Equal("OS", page.QuerySelector("#filter-eye option[selected]")!.GetAttribute("value"));
        Assert.Empty(page.QuerySelectorAll("#filter input[type=checkbox][checked]"));

        var again = await browser.SendFormAsync(
            page,
            "#filter",
            ("filter", "0.3"),
            ("eye", "OS"),
            ("seen", "OD"),
            ("seen", "OS")
        );

        var step = Assert.IsType<FilterStepEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(("OS", 0.3m, 2001L), (step.BeforeEye, step.LogUnits, step.Exam));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains(
            "Both eyes cannot",
            again.QuerySelector("#filter [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_filter_without_an_answer_is_not_entered()
    {
        WithDefect();
        var page = await browser.GoAsync("/exams/2001");
        var again = await browser.SendFormAsync(page, "#filter", ("filter", "0.3"), ("eye", "OS"));
        Assert.Empty(browser.House.Entered);
        Assert.Contains(
            "Say what was seen",
            again.QuerySelector("#filter .wrong-words")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Only_grades_that_can_be_given_are_offered_and_the_eye_is_that_of_the_defect()
    {
        WithDefect();
        var page = await browser.GoAsync("/exams/2001");
        Assert.Equal(
            ["", "I", "II"],
            page.QuerySelectorAll("#bell-grade option").Select(one => one.GetAttribute("value"))
        );
        Assert.Contains(
            "Grade IV is not offered",
            page.QuerySelector("#deed-bell")!.TextContent,
            StringComparison.Ordinal
        );
        await browser.SendFormAsync(page, "#bell", ("grade", "II"));
        var given = Assert.IsType<BellGradeEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(("OD", "II"), (given.Eye, given.Grade));
    }

    [Fact]
    public async Task Without_a_defect_neither_is_offered()
    {
        var page = await browser.GoAsync("/exams/2001");
        Assert.Null(page.QuerySelector("#filter"));
        Assert.Null(page.QuerySelector("#bell"));
    }

    private void WithDefect()
    {
        var record = browser.House.Records[2001];
        var defect = new DefectGradeView
        {
            Eye = "OD",
            Steps = [],
            Prompt = "Hold the 0.3 filter.",
            NextLogUnits = 0.3m,
            BeforeEye = "OS",
            Bell = null,
            Offered = [new("I", "weak"), new("II", "stall")],
        };
        browser.House.Records[2001] = record with { Exam = record.Exam with { DefectGrade = defect } };
    }

    public void Dispose() => browser.Dispose();
}
