using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

public sealed class SigningTests : IDisposable
{
    private readonly PageBrowser browser = new();

    [Fact]
    public async Task A_clinician_signs_what_the_page_shows()
    {
        var page = await browser.GoAsync("/exams/2001");
        Assert.Contains(
            SampleExams.Summary(2001).ChartLine,
            page.QuerySelector(".sign-box")!.TextContent,
            StringComparison.Ordinal
        );
        await browser.SendFormAsync(page, "#sign");
        var sign = Assert.IsType<SignEntry>(Assert.Single(browser.House.Entered));
        Assert.Equal((2001L, SampleExams.Digest), (sign.Exam, sign.SeenDigest));
    }

    [Fact]
    public async Task A_record_that_changed_since_it_was_shown_is_not_signed_and_stands_there_anew()
    {
        var page = await browser.GoAsync("/exams/2001");
        var changed = SampleExams.Digest.Replace('a', 'b');
        browser.House.Records[2001] = browser.House.Records[2001] with { DraftDigest = changed };
        var again = await browser.SendFormAsync(page, "#sign");
        Assert.Empty(browser.House.Entered);
        Assert.Contains(
            "changed since you looked",
            again.QuerySelector("#sign [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
        await browser.SendFormAsync(again, "#sign");
        Assert.Equal(changed, Assert.IsType<SignEntry>(Assert.Single(browser.House.Entered)).SeenDigest);
    }

    [Fact]
    public async Task An_exam_that_cannot_be_signed_says_why()
    {
        var page = await browser.GoAsync("/exams/2400");
        Assert.Null(page.QuerySelector("#sign"));
        Assert.Contains(
            "not ready for review",
            page.QuerySelector(".cannot-sign")!.TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_signed_exam_takes_only_an_amendment_or_setting_aside()
    {
        browser.House.Records[2001] = SampleExams.Signed(browser.House.Records[2001]);
        var page = await browser.GoAsync("/exams/2001");
        Assert.Equal(["amend", "set-aside"], page.QuerySelectorAll(".deeds form").Select(form => form.Id));
        Assert.Contains(
            "{\"format\":1,\"exam\":2001}",
            page.QuerySelector(".signed-version .exact")!.TextContent,
            StringComparison.Ordinal
        );
        await browser.SendFormAsync(page, "#amend", ("reason", "Graded the wrong eye."));
        Assert.Equal("Graded the wrong eye.", Assert.IsType<AmendEntry>(Assert.Single(browser.House.Entered)).Reason);
    }

    [Fact]
    public async Task An_exam_being_amended_takes_corrections_and_a_new_signature()
    {
        browser.House.Records[2001] = SampleExams.Signed(browser.House.Records[2001], isBeingAmended: true);
        var forms = (await browser.GoAsync("/exams/2001"))
            .QuerySelectorAll(".deeds form")
            .Select(form => form.Id)
            .ToList();
        Assert.Contains("sign", forms);
        Assert.Contains("judge", forms);
        Assert.Contains("withdraw", forms);
        Assert.DoesNotContain("amend", forms);
    }

    [Theory]
    [InlineData("#note", "text")]
    [InlineData("#whose", "reason")]
    [InlineData("#split", "reason")]
    [InlineData("#withdraw", "reason")]
    public async Task What_was_typed_while_somebody_signed_is_not_lost(string form, string field)
    {
        var page = await browser.GoAsync("/exams/2001");
        browser.House.Records[2001] = SampleExams.Signed(browser.House.Records[2001]);
        browser.House.Outcome = _ => new EntryOutcome.Refused(
            "The exam was signed by drv meanwhile.",
            "Begin an amendment."
        );
        var typed = new[]
        {
            (field, "Typed with care."),
            ("patient", "Q-1002"),
            ("from", "2070"),
            ("withdrawn", SampleExams.Id(2070)),
        };
        var fields = typed.Where(pair =>
            page.QuerySelector($"{form} [name={pair.Item1}]:not([type=hidden])") is not null
        );
        var again = await browser.SendFormAsync(page, form, [.. fields]);
        Assert.Contains(
            "signed by drv meanwhile",
            again.QuerySelector($"{form} [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("Typed with care.", again.QuerySelector($"{form} textarea")!.TextContent);
        Assert.NotNull(again.QuerySelector("#amend"));
    }

    [Fact]
    public async Task An_examiner_sees_the_record_and_cannot_sign_amend_or_set_aside()
    {
        browser.Roles = ClinicRole.Examiner;
        var page = await browser.GoAsync("/exams/2001");
        var forms = page.QuerySelectorAll(".deeds form").Select(form => form.Id).ToList();
        Assert.Contains("judge", forms);
        Assert.Empty(forms.Intersect(["sign", "amend", "set-aside"]));
    }

    [Fact]
    public async Task A_form_that_the_role_does_not_give_is_refused_even_if_it_is_sent()
    {
        var page = await browser.GoAsync("/exams/2001");
        browser.Roles = ClinicRole.Examiner;
        var again = await browser.SendFormAsync(page, "#set-aside", ("reason", "Never mind."));
        Assert.Empty(browser.House.Entered);
        Assert.Contains(
            "clinician",
            again.QuerySelector("#set-aside [role=alert]")!.TextContent,
            StringComparison.Ordinal
        );
    }

    public void Dispose() => browser.Dispose();
}
