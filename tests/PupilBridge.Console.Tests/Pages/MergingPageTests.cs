using System.Net;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

/// <summary>Two numbers that are one person, on the patient's page.</summary>
public sealed class MergingPageTests : IDisposable
{
    private static readonly MergingView Merging = new(
        "Q-1001",
        "Q-1002",
        "DR",
        SampleExams.Morning,
        "00000000000000000000000000000007",
        4711
    );

    private readonly PageBrowser browser = new();

    [Fact]
    public async Task A_clinician_merges_another_number_into_the_one_that_is_shown()
    {
        var page = await browser.GoAsync("/patients/Q-1001");
        var next = await browser.SendFormAsync(
            page,
            "#merge",
            ("other", " Q-1002 "),
            ("reason", "entered twice at the gate")
        );

        var entry = Assert.IsType<MergeEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            ("Q-1001", "Q-1002", "entered twice at the gate", false),
            (entry.Kept, entry.Merged, entry.Reason, entry.IsDespiteBirthDates)
        );
        Assert.Equal("/patients/Q-1001", browser.At);
        Assert.Contains(
            "Q-1002 is merged into Q-1001",
            next.QuerySelector(".said")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task What_is_refused_is_said_and_stays_typed_to_be_said_again()
    {
        browser.House.Outcome = _ => new EntryOutcome.Refused("Born on two days.", "Say that they differ.");
        var page = await browser.GoAsync("/patients/Q-1001");
        var again = await browser.SendFormAsync(page, "#merge", ("other", "Q-1002"), ("reason", "one and the same"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains(
            "Born on two days.",
            again.QuerySelector("#merge [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("Q-1002", again.QuerySelector("#merge-other")!.GetAttribute("value"));

        browser.House.Outcome = _ => new EntryOutcome.Recorded(9, null);
        await browser.SendFormAsync(
            again,
            "#merge",
            ("other", "Q-1002"),
            ("reason", "one and the same"),
            ("despite", "yes")
        );
        Assert.True(Assert.IsType<MergeEntry>(browser.House.Entered[^1]).IsDespiteBirthDates);
    }

    [Fact]
    public async Task Number_and_reason_must_be_given()
    {
        var page = await browser.GoAsync("/patients/Q-1001");
        var again = await browser.SendFormAsync(page, "#merge", ("other", ""), ("reason", ""));
        Assert.Empty(browser.House.Entered);
        Assert.NotNull(again.QuerySelector("#merge-other-wrong"));
        Assert.NotNull(again.QuerySelector("#merge-reason-wrong"));
    }

    [Fact]
    public async Task A_merging_is_shown_with_who_and_taken_back_by_its_entry()
    {
        browser.House.Mergings = [Merging];
        var page = await browser.GoAsync("/patients/Q-1001");
        var item = page.QuerySelector(".mergings li")!;
        Assert.Contains("is merged into Q-1001", item.TextContent, StringComparison.Ordinal);
        Assert.Contains("by DR", item.TextContent, StringComparison.Ordinal);
        Assert.Contains("entry 4711", item.TextContent, StringComparison.Ordinal);

        await browser.SendFormAsync(page, "#part-4711", ("reason", "a cousin"));

        var entry = Assert.IsType<PartEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal((Merging.Merged, Merging.Merging, "a cousin"), (entry.Merged, entry.Merging, entry.Reason));
        Assert.Equal("/patients/Q-1001", browser.At);
    }

    [Fact]
    public async Task A_merged_number_says_where_it_went_and_takes_no_other_one()
    {
        browser.House.Mergings = [Merging];
        browser.House.Add(new PatientView("Q-1002", "Rowan Ebb", null) { MergedInto = "Q-1001" });

        var page = await browser.GoAsync("/patients/Q-1002");

        Assert.Contains("merged into Q-1001", page.QuerySelector("h1")!.TextContent, StringComparison.Ordinal);
        Assert.NotNull(page.QuerySelector("[role=status] a[href='/patients/Q-1001']"));
        Assert.Null(page.QuerySelector("#merge"));
        Assert.NotNull(page.QuerySelector("#part-4711"));
        var list = await browser.GoAsync("/patients");
        Assert.Contains("merged into Q-1001", list.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_examiner_sees_what_is_merged_and_changes_nothing()
    {
        browser.Roles = ClinicRole.Examiner;
        var alone = await browser.GoAsync("/patients/Q-1001");
        Assert.Null(alone.QuerySelector("#same-person"));
        browser.House.Mergings = [Merging];

        var page = await browser.GoAsync("/patients/Q-1001");

        Assert.NotNull(page.QuerySelector(".mergings li"));
        Assert.Null(page.QuerySelector("#merge"));
        Assert.Null(page.QuerySelector("#part-4711"));
    }

    public void Dispose() => browser.Dispose();
}
