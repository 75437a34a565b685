using System.Net;
using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

/// <summary>The page on which an administrator sees who is due to be erased.</summary>
public sealed class DuePageTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private readonly PageBrowser browser = new(
        ClinicRole.Administrator,
        settings => settings with { RetentionYears = 10 },
        new FakeTimeProvider(Now)
    );

    public void Dispose() => browser.Dispose();

    [Fact]
    public async Task Whoever_is_due_is_listed_by_number_and_last_visit_and_nothing_else_of_them()
    {
        browser.House.Due = new([new("Q-1001", Now.AddYears(-12), 2001), new("Q-1003", Now.AddYears(-11), 2044)], null);
        var page = await browser.GoAsync("/erasing");
        Assert.Equal((Now.AddYears(-10), null), Assert.Single(browser.House.DueAsked));
        Assert.Contains("10 year(s)", page.QuerySelector(".lead")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(
            ["Q-1001 | 2014-03-02 08:00 | 2001", "Q-1003 | 2015-03-02 08:00 | 2044"],
            page.QuerySelectorAll("tbody tr")
                .Select(row => string.Join(" | ", row.Children.Select(cell => cell.TextContent.Trim())))
        );
        Assert.DoesNotContain("Tamsin", browser.Text, StringComparison.Ordinal);
        Assert.Null(page.QuerySelector(".further"));
    }

    [Fact]
    public async Task It_stands_in_the_ways_of_those_who_may_and_of_nobody_else()
    {
        var page = await browser.GoAsync("/erasing");
        Assert.Equal("/erasing", page.QuerySelector("nav.ways a[aria-current=page]")!.GetAttribute("href"));
        browser.Roles = ClinicRole.Examiner | ClinicRole.Clinician | ClinicRole.Technician;
        var other = await browser.GoAsync("/");
        Assert.NotEmpty(other.QuerySelectorAll("nav.ways a"));
        Assert.Null(other.QuerySelector("nav.ways a[href='/erasing']"));
        await browser.GoAsync("/erasing");
        Assert.Equal(HttpStatusCode.Forbidden, browser.Status);
    }

    [Fact]
    public async Task A_page_leads_to_the_next_and_one_without_anybody_says_that_it_is_not_the_end()
    {
        browser.House.Due = new([], "1393747200000~0000002001");
        var page = await browser.GoAsync("/erasing");
        Assert.Contains("among these visits", page.QuerySelector(".empty")!.TextContent, StringComparison.Ordinal);
        await browser.GoAsync(page.QuerySelector(".further a")!.GetAttribute("href")!);
        Assert.Equal("1393747200000~0000002001", browser.House.DueAsked[^1].After);
        browser.House.Due = new([], null);
        page = await browser.GoAsync("/erasing");
        Assert.Contains("lies that long ago", page.QuerySelector(".empty")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_years_it_says_what_to_set_and_that_nobody_is_erased_by_it_and_asks_nothing()
    {
        using var unset = new PageBrowser(ClinicRole.Administrator);
        var page = await unset.GoAsync("/erasing");
        var lead = page.QuerySelector(".lead")!.TextContent;
        Assert.Contains("Retention:Years", lead, StringComparison.Ordinal);
        Assert.Contains("Nobody is erased", lead, StringComparison.Ordinal);
        Assert.Empty(unset.House.DueAsked);
    }
}
