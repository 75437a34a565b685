using System.Net;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

public sealed partial class EveryPageTests : IDisposable
{
    private readonly PageBrowser browser = new();

    public static TheoryData<string> Paths =>
        [
            "/",
            "/instruments",
            "/patients",
            "/patients?q=q-1",
            "/patients/Q-1001",
            "/patients/Q-1003",
            "/day",
            "/day?day=2026-11-24",
            "/exams",
            "/exams?patient=Q-1001&from=2026-01-01",
            "/review",
            "/exams/2001",
            "/exams/2400",
            "/exams/2500",
            "/exams/2600",
            "/exams/2001/raw/2011",
            "/outbox",
            "/outbox?part=open",
            "/erasing",
            "/erasing/proposed",
            "/bench",
            "/bench/discs",
            "/bench/discs?set=Box%201",
            "/bench/begin/QA-0007",
            "/bench/begin/QA-0007?kind=quick-check",
            "/bench/begin/QA-0007?kind=timing",
            "/bench/begin/QA-0007?kind=live-repeatability",
            "/bench/runs/3001",
            "/bench/runs/3001?reading=3010",
            "/bench/runs/3002",
            "/bench/runs/3003",
            "/bench/runs/3004",
            "/bench/runs/3005/certificate",
            "/bench/certificates/12",
            "/bench/drift/QA-0007",
            "/bench/lamps/QA-0007",
            "/bench/lamps/QB-0112",
        ];

    [Theory]
    [MemberData(nameof(Paths))]
    public async Task A_page_has_all_its_words_and_an_order_that_a_screen_reader_can_follow(string path)
    {
        browser.House.Outbox = SampleOutbox.Page(SampleOutbox.Refused);
        browser.House.Records[2500] = SampleExams.Signed(browser.House.Records[2001]);
        browser.House.Records[2600] = SampleExams.Signed(browser.House.Records[2001], isBeingAmended: true);
        var page = await browser.GoAsync(path);
        Assert.Equal(HttpStatusCode.OK, browser.Status);
        Assert.Empty(MissingWord().Matches(browser.Text));
        Assert.NotEqual("", page.Title);
        Assert.Single(page.QuerySelectorAll("h1"));
        AssertHeadingsDescendStepByStep(page);
        Assert.All(page.QuerySelectorAll("table"), table => Assert.NotNull(table.QuerySelector("caption")));
        Assert.All(page.QuerySelectorAll("th"), head => Assert.True(head.HasAttribute("scope"), head.OuterHtml));
        Assert.All(page.QuerySelectorAll("img"), picture => Assert.NotEqual("", picture.GetAttribute("alt")));
        AssertEveryFieldHasItsLabel(page);
        var ids = page.QuerySelectorAll("[id]").Select(element => element.Id).ToList();
        Assert.Equal(ids.Distinct(), ids);
    }

    [Theory]
    [MemberData(nameof(Paths))]
    public async Task A_page_obeys_the_content_security_policy_and_can_be_operated_by_keyboard(string path)
    {
        var page = await browser.GoAsync(path);
        Assert.Empty(page.QuerySelectorAll("[style], style, [onclick], [onsubmit], [onload]"));
        Assert.All(
            page.QuerySelectorAll("script"),
            script => Assert.StartsWith("/assets/", script.GetAttribute("src"))
        );
        Assert.Equal("#main", page.QuerySelector("a.skip")!.GetAttribute("href"));
        Assert.All(page.QuerySelectorAll("a"), way => Assert.True(way.HasAttribute("href"), way.OuterHtml));
        Assert.All(
            page.QuerySelectorAll("form[method=post]"),
            form => Assert.NotNull(form.QuerySelector("input[name=__RequestVerificationToken]"))
        );
    }

    [Theory]
    [InlineData("/", "No instrument has been met yet")]
    [InlineData("/instruments", "No instrument has been met yet")]
    [InlineData("/patients", "No patient is known yet")]
    [InlineData("/patients?q=zz", "begins with ‘zz’")]
    [InlineData("/day", "No list was given for this day")]
    [InlineData("/exams", "No exam was opened today")]
    [InlineData("/exams?patient=Q-9&from=", "No exam fits")]
    [InlineData("/review", "Nothing awaits review")]
    [InlineData("/outbox", "Nothing is here")]
    [InlineData("/erasing", "Retention:Years")]
    [InlineData("/bench", "No set of discs is known yet")]
    [InlineData("/bench/begin/QA-0007", "There is no set of discs to measure with")]
    public async Task An_empty_house_says_what_to_do(string path, string words)
    {
        browser.House.Patients.Clear();
        browser.House.Found = [];
        browser.House.Instruments = [];
        browser.House.Lines = [];
        browser.House.Bench = browser.House.Bench with { DiscSets = [] };
        await browser.GoAsync(path);
        Assert.Equal(HttpStatusCode.OK, browser.Status);
        Assert.Contains(words, WebUtility.HtmlDecode(browser.Text), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/patients")]
    [InlineData("/patients/Q-66")]
    [InlineData("/day")]
    [InlineData("/exams")]
    [InlineData("/review")]
    [InlineData("/exams/2666")]
    public async Task A_name_full_of_markup_is_shown_as_it_was_typed_and_runs_nothing(string path)
    {
        const string name = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>";
        var evil = new Clinic.Views.PatientView("Q-66", name, null);
        browser.House.Add(evil);
        browser.House.Records[2666] = SampleExams.Record(SampleExams.Rich(2666), evil);
        browser.House.Found = [SampleHouse.Of(browser.House.Records[2666])];
        var page = await browser.GoAsync(path);
        Assert.Equal(HttpStatusCode.OK, browser.Status);
        Assert.DoesNotContain("<script>alert", browser.Text, StringComparison.Ordinal);
        Assert.Empty(page.QuerySelectorAll("img[onerror]"));
        Assert.Contains(name, page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_number_with_a_slash_or_a_blank_leads_to_its_patient()
    {
        browser.House.Add(new Clinic.Views.PatientView("Q 7/2 %", "Tide", null));
        var list = await browser.GoAsync("/patients?q=Q%207");
        var way = list.QuerySelectorAll("tbody a").Single();
        var page = await browser.GoAsync(way.GetAttribute("href")!);
        Assert.Equal("Q 7/2 %", page.QuerySelector("h1 .number")!.TextContent.Trim());
    }

    public void Dispose() => browser.Dispose();

    private static void AssertHeadingsDescendStepByStep(IParentNode page)
    {
        var depth = 0;
        foreach (var heading in page.QuerySelectorAll("h1, h2, h3, h4"))
        {
            var next = heading.LocalName[1] - '0';
            Assert.True(next <= depth + 1, $"'{heading.TextContent.Trim()}' skips a depth.");
            depth = next;
        }
    }

    private static void AssertEveryFieldHasItsLabel(IParentNode page)
    {
        foreach (var field in page.QuerySelectorAll("input:not([type=hidden]), select, textarea"))
        {
            var label = field.Id is { Length: > 0 } id
                ? page.QuerySelector($"label[for='{id}']")
                : field.Closest("label");
            Assert.False(string.IsNullOrWhiteSpace(label?.TextContent), field.OuterHtml);
        }
    }

    [GeneratedRegex(@"\[[A-Z][A-Za-z]+\.[^\]<]+\]")]
    private static partial Regex MissingWord();
}
