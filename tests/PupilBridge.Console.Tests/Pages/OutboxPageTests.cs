using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

/// <summary>The page on which an administrator sees what goes to another system, and decides about what rests.</summary>
public sealed class OutboxPageTests : IDisposable
{
    private readonly PageBrowser browser = new(ClinicRole.Administrator);

    [Fact]
    public async Task What_rests_is_shown_with_what_was_said_about_it()
    {
        browser.House.Outbox = SampleOutbox.Page(SampleOutbox.Refused);
        var page = await browser.GoAsync("/outbox");
        Assert.Equal(("stopped", null), Assert.Single(browser.House.OutboxAsked));
        Assert.Contains(
            "hospital, https://records.example/fhir",
            page.QuerySelector(".lead")!.TextContent,
            StringComparison.Ordinal
        );
        var row = Assert.Single(page.QuerySelectorAll("tbody tr"));
        Assert.Equal("2500-1", row.QuerySelector("th")!.TextContent);
        var cells = row.QuerySelectorAll("td").Select(cell => cell.TextContent.Trim()).ToList();
        Assert.Equal(("Q-1001", "refused", "3"), (cells[0], cells[2], cells[3]));
        Assert.Equal("it answered 422: no <such> patient", cells[4]);
        Assert.Equal("2500-1", page.QuerySelector("#decide-sending input[name=version]")!.GetAttribute("value"));
    }

    [Fact]
    public async Task Why_nothing_gets_through_stands_on_top()
    {
        browser.House.Outbox = SampleOutbox.Page() with
        {
            Sending = SampleOutbox.Going with { Trouble = "hospital cannot be reached." },
        };
        var page = await browser.GoAsync("/outbox?part=open");
        Assert.Equal("hospital cannot be reached.", page.QuerySelector("p.problem[role=alert]")!.TextContent);
        Assert.Equal("open", browser.House.OutboxAsked[^1].Part);
        Assert.Equal("/outbox?part=open", page.QuerySelector(".choices a[aria-current=page]")!.GetAttribute("href"));
    }

    [Fact]
    public async Task Without_a_destination_it_says_that_nothing_leaves_the_house_and_what_to_set()
    {
        var page = await browser.GoAsync("/outbox");
        Assert.Contains("Sending:Address", page.QuerySelector(".lead")!.TextContent, StringComparison.Ordinal);
        Assert.Null(page.QuerySelector("#decide-sending"));
    }

    [Fact]
    public async Task What_is_done_with_offers_no_decision_and_leads_on_to_the_next_page()
    {
        browser.House.Outbox = SampleOutbox.Page(SampleOutbox.Sent) with { Next = "17" };
        var page = await browser.GoAsync("/outbox?part=settled");
        Assert.Null(page.QuerySelector("#decide-sending"));
        var further = page.QuerySelectorAll("a")
            .Single(way => way.GetAttribute("href")!.Contains("after=", StringComparison.Ordinal));
        await browser.GoAsync(further.GetAttribute("href")!);
        Assert.Equal(("settled", "17"), browser.House.OutboxAsked[^1]);
    }

    [Theory]
    [InlineData("retry")]
    [InlineData("withhold")]
    public async Task A_decision_is_entered_by_whoever_is_signed_in_and_the_page_says_so(string decision)
    {
        browser.House.Outbox = SampleOutbox.Page(SampleOutbox.Refused);
        var page = await browser.GoAsync("/outbox");
        var id = page.QuerySelector("#decide-sending input[name=entryId]")!.GetAttribute("value");
        var next = await browser.SendFormAsync(
            page,
            "#decide-sending",
            ("version", "2500-1"),
            ("decision", decision),
            ("reason", "they have put it right")
        );
        var entry = Assert.IsType<SendingEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            (id, 2500L, 1, decision, "they have put it right", "drv"),
            (entry.EntryId, entry.Exam, entry.Version, entry.Decision, entry.Reason, entry.Who)
        );
        Assert.Equal("/outbox?part=stopped", browser.At);
        Assert.Equal("The decision is recorded.", next.QuerySelector(".said")!.TextContent);
    }

    [Theory]
    [InlineData("17", "retry", "why", "version")]
    [InlineData("17-1-1", "retry", "why", "version")]
    [InlineData("2500-1", "", "why", "decision")]
    [InlineData("2500-1", "retry", " ", "reason")]
    public async Task What_is_missing_is_said_at_its_field_and_nothing_is_entered(
        string version,
        string decision,
        string reason,
        string wrong
    )
    {
        browser.House.Outbox = SampleOutbox.Page(SampleOutbox.Refused);
        var page = await browser.GoAsync("/outbox");
        var again = await browser.SendFormAsync(
            page,
            "#decide-sending",
            ("version", version),
            ("decision", decision),
            ("reason", reason)
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Empty(browser.House.Entered);
        Assert.NotNull(again.QuerySelector($"#decide-sending-{wrong}-wrong"));
        Assert.Single(again.QuerySelectorAll(".wrong-words"));
    }

    [Fact]
    public async Task A_decision_that_the_house_refuses_stands_there_again_with_the_reason()
    {
        browser.House.Outbox = SampleOutbox.Page(SampleOutbox.Refused);
        browser.House.Outcome = _ => new EntryOutcome.Refused("It is there already.", "Look at what is done with.");
        var page = await browser.GoAsync("/outbox");
        var again = await browser.SendFormAsync(
            page,
            "#decide-sending",
            ("version", "2500-1"),
            ("decision", "retry"),
            ("reason", "a long & careful reason")
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains(
            "It is there already. Look at what is done with.",
            again.QuerySelector("#decide-sending [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("a long & careful reason", again.QuerySelector("#decide-sending textarea")!.TextContent);
    }

    public void Dispose() => browser.Dispose();
}
