using System.Net;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

public sealed class RecordPageTests : IDisposable
{
    private readonly PageBrowser browser = new();

    [Fact]
    public async Task Every_value_leads_to_its_raw_reading()
    {
        var page = await browser.GoAsync("/exams/2001");
        var exam = browser.House.Records[2001].Exam;
        var expected = exam
            .Sizes.Select(size => size.Sequence)
            .Concat(exam.Judgements.Select(judgement => judgement.Sequence))
            .Concat(exam.Stimuli.Select(stimulus => stimulus.Sequence))
            .Concat(exam.Incidents.Select(incident => incident.Sequence));
        var ways = page.QuerySelectorAll(".findings-column a.raw").Select(way => way.GetAttribute("href")).ToHashSet();
        Assert.All(expected, sequence => Assert.Contains($"/exams/2001/raw/{sequence}", ways));
        var raw = await browser.GoAsync("/exams/2001/raw/2011");
        Assert.Contains("REST,R,2000", raw.QuerySelector(".raw-line")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("/exams/2001", raw.QuerySelector("main a[autofocus]")!.GetAttribute("href"));
    }

    [Fact]
    public async Task Right_stands_above_left_and_a_superseded_size_stands_apart()
    {
        var page = await browser.GoAsync("/exams/2001");
        var rows = page.QuerySelectorAll("table.sizes tbody tr").Select(row => row.TextContent).ToList();
        Assert.Contains("OD (right)", rows[0], StringComparison.Ordinal);
        Assert.Contains("OS (left)", rows[1], StringComparison.Ordinal);
        Assert.Contains("4.1", rows[1], StringComparison.Ordinal);
        Assert.DoesNotContain("4.48", rows[1], StringComparison.Ordinal);
        Assert.Contains("81 s in the dark", rows[1], StringComparison.Ordinal);
        Assert.Contains("−0.70 mm", rows[2], StringComparison.Ordinal);
        Assert.Contains("uncalibrated", page.QuerySelector(".uncalibrated")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(
            "4.48",
            page.QuerySelector("section[aria-labelledby=sizes-title] details")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task How_the_calibration_stood_is_a_fact_of_the_record()
    {
        var page = await browser.GoAsync("/exams/2001");
        Assert.Equal(
            browser.House.Records[2001].Calibration.Words,
            page.QuerySelector("dl.facts dd.calibration")!.TextContent
        );
    }

    [Fact]
    public async Task A_grade_stands_with_the_clinics_own_words_for_it()
    {
        var page = await browser.GoAsync("/exams/2001");
        var rows = page.QuerySelectorAll("table.grades-table tbody tr")
            .ToDictionary(
                row => row.QuerySelector("th")!.TextContent.Trim(),
                row => row.QuerySelectorAll("td").Select(cell => cell.TextContent).ToList()
            );
        Assert.Contains("moderate", rows["Direct response"][0], StringComparison.Ordinal);
        Assert.Contains(
            "between 1 (trace) and 2 (slow or small)",
            rows["Direct response"][1],
            StringComparison.Ordinal
        );
        Assert.Contains("could not see", rows["Near response"][1], StringComparison.Ordinal);
        Assert.Contains("not examined", rows["Consensual response, light in"][0], StringComparison.Ordinal);
        Assert.DoesNotContain("Slow to dilate", rows.Keys);
    }

    [Fact]
    public async Task Nothing_that_was_not_examined_looks_normal()
    {
        var page = await browser.GoAsync("/exams/2400");
        var cells = page.QuerySelectorAll("table.grades-table td").Select(cell => cell.TextContent.Trim()).ToList();
        Assert.Equal(6, cells.Count);
        Assert.All(cells, cell => Assert.Equal("not examined", cell));
        Assert.Contains("no patient yet", page.QuerySelector("h1")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_reasons_for_a_clinician_before_drops_stand_before_the_findings()
    {
        await browser.GoAsync("/exams/2001");
        var reason = browser.Text.IndexOf("poor direct response, OS (left): 1.5", StringComparison.Ordinal);
        Assert.InRange(reason, 1, browser.Text.IndexOf("table class=\"sizes\"", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_exam_that_is_not_here_says_so()
    {
        var page = await browser.GoAsync("/exams/77");
        Assert.Equal(HttpStatusCode.NotFound, browser.Status);
        Assert.Equal("No such exam", page.QuerySelector("h1")!.TextContent);
        Assert.Contains("There is no exam 77 here", page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_chart_text_of_each_length_can_be_marked_and_has_a_key_to_copy_it()
    {
        var page = await browser.GoAsync("/exams/2001");
        foreach (var (key, id) in new[] { ("c", "chart-line"), ("b", "chart-block"), ("f", "chart-full") })
        {
            var button = page.QuerySelector($"button[data-key={key}]")!;
            Assert.Equal((id, key), (button.GetAttribute("data-copies"), button.GetAttribute("accesskey")));
            Assert.NotEqual("", page.GetElementById(id)!.TextContent);
        }
    }

    [Fact]
    public async Task The_report_can_be_reached_by_keyboard_on_both_sheets_and_as_text()
    {
        var page = await browser.GoAsync("/exams/2001");
        var ways = page.QuerySelectorAll("section.report a").Select(way => way.GetAttribute("href"));
        Assert.Equal(
            [
                "/exams/2001/report.pdf",
                "/exams/2001/report.pdf?paper=a5",
                "/exams/2001/report.html",
                "/exams/2001/report.html?paper=a5",
                "/exams/2001/report.txt",
            ],
            ways
        );
        Assert.Single(page.QuerySelectorAll("nav.jumps a[href='#report-title']"));
    }

    public void Dispose() => browser.Dispose();
}
