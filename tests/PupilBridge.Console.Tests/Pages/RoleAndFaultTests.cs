using System.Net;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.Pages.Support;

namespace PupilBridge.Console.Tests.Pages;

public sealed class RoleAndFaultTests : IDisposable
{
    private readonly PageBrowser browser = new();

    [Theory]
    [InlineData(ClinicRole.Technician, "/exams", "examiner or clinician")]
    [InlineData(ClinicRole.Technician, "/exams/2001", "examiner or clinician")]
    [InlineData(ClinicRole.Technician, "/exams/2001/raw/2011", "examiner or clinician")]
    [InlineData(ClinicRole.Technician, "/exams/2001/report.pdf", "examiner or clinician")]
    [InlineData(ClinicRole.Administrator, "/exams/2001/report.html", "examiner or clinician")]
    [InlineData(ClinicRole.Technician, "/patients", "examiner or clinician")]
    [InlineData(ClinicRole.Technician, "/patients/Q-1001/sizes.svg", "examiner or clinician")]
    [InlineData(ClinicRole.Administrator, "/day", "examiner or clinician")]
    [InlineData(ClinicRole.Administrator, "/instruments", "examiner or clinician or technician")]
    [InlineData(ClinicRole.Examiner, "/review", "clinician")]
    [InlineData(ClinicRole.Clinician, "/outbox", "administrator")]
    [InlineData(ClinicRole.Technician, "/outbox?part=open", "administrator")]
    public async Task A_page_that_the_role_does_not_open_names_the_role_that_would(
        ClinicRole role,
        string path,
        string needed
    )
    {
        browser.Roles = role;
        var page = await browser.GoAsync(path);
        Assert.Equal(HttpStatusCode.Forbidden, browser.Status);
        Assert.Equal("Not allowed for your role", page.QuerySelector("h1")!.TextContent);
        Assert.Contains($"needs the role {needed}.", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("Tamsin", browser.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(ClinicRole.Examiner, "/,/day,/patients,/exams,/instruments,/bench")]
    [InlineData(ClinicRole.Clinician, "/,/day,/patients,/exams,/review,/instruments,/bench")]
    [InlineData(ClinicRole.Technician, "/,/instruments,/bench")]
    [InlineData(ClinicRole.Administrator, "/people,/keys,/audit,/outbox,/erasing")]
    public async Task The_ways_are_those_that_the_role_opens(ClinicRole role, string ways)
    {
        browser.Roles = role;
        var page = await browser.GoAsync("/");
        Assert.Equal(HttpStatusCode.OK, browser.Status);
        Assert.Equal(ways.Split(','), page.QuerySelectorAll("nav.ways a").Select(way => way.GetAttribute("href")));
        Assert.Equal(
            role is ClinicRole.Examiner or ClinicRole.Clinician,
            browser.Text.Contains("Rowan Ebb", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task One_who_is_not_signed_in_sees_nothing()
    {
        browser.Who = null;
        foreach (var path in new[] { "/", "/exams/2001", "/patients/Q-1001/sizes.svg" })
        {
            await browser.GoAsync(path);
            Assert.Equal(HttpStatusCode.Unauthorized, browser.Status);
            Assert.DoesNotContain(
                "Q-100",
                browser.Text.Replace(path, "", StringComparison.Ordinal),
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public async Task An_address_that_leads_nowhere_says_so()
    {
        var page = await browser.GoAsync("/nowhere");
        Assert.Equal(HttpStatusCode.NotFound, browser.Status);
        Assert.Contains("Nothing is at /nowhere.", page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_that_fails_says_that_readings_go_on_and_shows_no_innards()
    {
        browser.House.Outcome = _ => throw new InvalidOperationException("the innards");
        var page = await browser.GoAsync("/exams/2001");
        var fault = await browser.SendFormAsync(page, "#note", ("text", "x"));
        Assert.Equal(HttpStatusCode.InternalServerError, browser.Status);
        Assert.Contains("Readings go on being recorded", fault.Body!.TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("innards", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_shown_now_is_said_in_the_desks_words()
    {
        browser.House.Obstacle = "The exam log is being made anew.";
        var page = await browser.GoAsync("/exams/2001");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains("The exam log is being made anew.", page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_without_its_token_is_refused_with_words()
    {
        var page = await browser.GoAsync("/exams/2001");
        page.QuerySelector("#note input[name=__RequestVerificationToken]")!.Remove();
        var fault = await browser.SendFormAsync(page, "#note", ("text", "x"));
        Assert.Equal(HttpStatusCode.BadRequest, browser.Status);
        Assert.Empty(browser.House.Entered);
        Assert.Contains("Nothing was recorded", fault.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_face_is_changed_by_a_form_that_leads_back()
    {
        var page = await browser.GoAsync("/exams?patient=Q-1001&from=");
        Assert.Equal("dark", page.DocumentElement.GetAttribute("data-face"));
        var next = await browser.SendFormAsync(page, ".face-switch", ("face", "light"));
        Assert.Equal("/exams?patient=Q-1001&from=", browser.At);
        Assert.Equal("light", next.DocumentElement.GetAttribute("data-face"));
        Assert.Contains(
            "face=light",
            (await browser.GoAsync("/patients/Q-1001")).QuerySelector("figure img")!.GetAttribute("src"),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("//elsewhere.example/")]
    [InlineData("/\\elsewhere.example/")]
    [InlineData("https://elsewhere.example/")]
    [InlineData("")]
    public async Task The_face_switch_leads_nowhere_else(string back)
    {
        var page = await browser.GoAsync("/");
        page.QuerySelector(".face-switch input[name=back]")!.SetAttribute("value", back);
        await browser.SendFormAsync(page, ".face-switch", ("face", "light"));
        Assert.Equal("/", browser.At);
    }

    public void Dispose() => browser.Dispose();
}
