using System.Net;
using System.Text;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.Tests.Pages.Support;
using PupilBridge.Exchange.Tests.Certificates;

namespace PupilBridge.Console.Tests.Pages.Bench;

/// <summary>The draft that a technician looks at, the issue, and the certificate that everybody sees.</summary>
public sealed class CertificatePageTests : IDisposable
{
    private static readonly string DiscCertificate = CertificateSamples.Of("set-aside").Discs.CertificateNumber;

    private readonly PageBrowser browser = new(ClinicRole.Technician);

    [Fact]
    public async Task A_draft_is_marked_as_one_and_what_was_seen_is_what_is_issued()
    {
        var page = await browser.GoAsync("/bench/runs/3005/certificate");
        Assert.Contains("not issued", page.QuerySelector(".draft-mark")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(DiscCertificate, page.QuerySelector("pre")!.TextContent, StringComparison.Ordinal);
        await browser.SendFormAsync(page, "#issue", ("effective", ""), ("expires", ""));
        var entry = Assert.IsType<IssueEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            (3005L, "digest-of-what-was-seen", null, null, "drv"),
            (entry.Run, entry.SeenDigest, entry.Effective, entry.Expires, entry.Who)
        );
    }

    [Fact]
    public async Task Days_are_taken_by_the_clinics_clock_and_the_last_day_is_whole()
    {
        var page = await browser.GoAsync("/bench/runs/3005/certificate");
        await browser.SendFormAsync(page, "#issue", ("effective", "2099-03-01"), ("expires", "2099-09-30"));
        var entry = Assert.IsType<IssueEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal(
            (new DateTime(2099, 3, 1), new DateTime(2099, 10, 1)),
            (entry.Effective!.Value.ToLocalTime().DateTime, entry.Expires!.Value.ToLocalTime().DateTime)
        );
    }

    [Theory]
    [InlineData("2001-01-01", "", "effective")]
    [InlineData("", "2001-01-01", "expires")]
    [InlineData("2099-03-02", "2099-03-01", "expires")]
    [InlineData("soon", "", "effective")]
    public async Task Days_that_cannot_be_are_said_at_their_field(string effective, string expires, string wrong)
    {
        var page = await browser.GoAsync("/bench/runs/3005/certificate");
        page = await browser.SendFormAsync(page, "#issue", ("effective", effective), ("expires", expires));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Empty(browser.House.Entered);
        Assert.NotNull(page.QuerySelector($"#issue-{wrong}-wrong"));
    }

    [Fact]
    public async Task A_draft_that_has_changed_is_shown_anew_with_what_to_do()
    {
        var page = await browser.GoAsync("/bench/runs/3005/certificate");
        browser.House.Draft = SampleBench.Draft with { Digest = "another" };
        browser.House.Outcome = _ => new EntryOutcome.Refused("It is not what was looked at.", "Look again.");
        page = await browser.SendFormAsync(page, "#issue", ("effective", ""));
        Assert.Contains(
            "Look again.",
            page.QuerySelector("#issue [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("another", page.QuerySelector("#issue input[name=seen]")!.GetAttribute("value"));
    }

    [Fact]
    public async Task Where_there_can_be_none_it_says_why_and_offers_no_issue()
    {
        browser.House.Draft = new CertificateDraft(null, null, "Run 3005 is not finished. Finish it first.");
        var page = await browser.GoAsync("/bench/runs/3005/certificate");
        Assert.Contains("Finish it first.", page.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Null(page.QuerySelector("#issue"));
        Assert.Null(page.QuerySelector(".draft-mark"));
    }

    [Fact]
    public async Task A_certificate_says_how_it_stands_and_what_took_its_place()
    {
        browser.Roles = ClinicRole.Examiner;
        browser.House.Certificates[12] = SampleBench.Certificate with
        {
            Standing = "Superseded by certificate 13.",
            SupersededBy = 13,
        };
        var page = await browser.GoAsync("/bench/certificates/12");
        Assert.Contains("Superseded by certificate 13.", browser.Text, StringComparison.Ordinal);
        Assert.NotNull(page.QuerySelector("a[href='/bench/certificates/13']"));
        Assert.Null(page.QuerySelector(".draft-mark"));
        await browser.GoAsync("/bench/certificates/99");
        Assert.Equal(HttpStatusCode.NotFound, browser.Status);
    }

    [Theory]
    [InlineData("/bench/certificates/12/certificate", false)]
    [InlineData("/bench/runs/3005/certificate/draft", true)]
    public async Task It_is_given_as_pdf_page_text_and_the_json_as_issued(string address, bool isDraft)
    {
        await browser.GoAsync($"{address}.json");
        Assert.Equal(
            SampleBench.CertificateJson,
            Encoding.UTF8.GetString(await browser.Answer.Content.ReadAsByteArrayAsync())
        );
        await browser.GoAsync($"{address}.pdf");
        Assert.Equal("application/pdf", browser.Answer.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith("%PDF-", browser.Text, StringComparison.Ordinal);
        var page = await browser.GoAsync($"{address}.html");
        Assert.Equal("text/html", browser.Answer.Content.Headers.ContentType!.MediaType);
        Assert.Empty(page.QuerySelectorAll("script"));
        Assert.Equal(isDraft, browser.Text.Contains("draft", StringComparison.OrdinalIgnoreCase));
        await browser.GoAsync($"{address}.txt");
        Assert.Contains(DiscCertificate, browser.Text, StringComparison.Ordinal);
    }

    public void Dispose() => browser.Dispose();
}
