using System.Net;
using System.Text.RegularExpressions;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

public sealed class PeoplePagesTests : IDisposable
{
    private readonly SignInHouse house = new();

    public void Dispose() => house.Dispose();

    [Fact]
    public async Task An_administrator_adds_a_person_with_roles()
    {
        var browser = await AdministratorAsync();
        var answer = await AddAsync(browser, "JL", SignInHouse.Good);
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Contains("JL can sign in now", answer.Text, StringComparison.Ordinal);
        Assert.Equal(ClinicRole.Examiner | ClinicRole.Clinician, house.People.Find("JL")!.Roles);
        await house.SignedInAsync("JL");
    }

    [Fact]
    public async Task What_is_refused_stands_there_again_without_the_password()
    {
        var browser = await AdministratorAsync();
        var answer = await AddAsync(browser, "JL", "password123");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("guessed first", answer.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"JL\"", answer.Text, StringComparison.Ordinal);
        Assert.Matches("value=\"Clinician\" checked", answer.Text);
        Assert.DoesNotContain("password123", answer.Text, StringComparison.Ordinal);
        Assert.Null(house.People.Find("JL"));
    }

    [Theory]
    [InlineData("AB", "four grey pilots", "Examiner", "who")]
    [InlineData("JL", "four grey pilots", "Pilot", "role")]
    [InlineData("JL", "password123", "Examiner", "password")]
    public async Task A_refusal_leads_back_to_the_field_that_is_wrong(
        string who,
        string password,
        string role,
        string field
    )
    {
        var browser = await AdministratorAsync();
        var answer = await browser.SendFormAsync(
            "/people",
            "add-person",
            ("who", who),
            ("role", role),
            ("password", password),
            ("again", password),
            ("mine", SignInHouse.Good)
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var wrong = Regex.Matches(answer.Text, "<input [^>]*aria-invalid=\"true\"[^>]*>");
        Assert.All(wrong, one => Assert.Contains($"name=\"{field}\"", one.Value, StringComparison.Ordinal));
        Assert.NotEmpty(wrong);
    }

    [Fact]
    public async Task Roles_password_and_switch_are_changed_on_a_persons_own_page()
    {
        var browser = await AdministratorAsync();
        await AddAsync(browser, "J/L", SignInHouse.Good);
        const string Page = "/people/J%2FL";
        await browser.SendFormAsync(Page, "roles", ("role", "Technician"), ("mine-roles", SignInHouse.Good));
        Assert.Equal(ClinicRole.Technician, house.People.Find("J/L")!.Roles);
        var differ = await browser.SendFormAsync(Page, "password", ("password", "four grey pilots"), ("again", "x"));
        Assert.Contains("not the same", differ.Text, StringComparison.Ordinal);
        await browser.SendFormAsync(
            Page,
            "password",
            ("password", "four grey pilots"),
            ("again", "four grey pilots"),
            ("mine-password", SignInHouse.Good)
        );
        await house.SignedInAsync("J/L", "four grey pilots");
        await browser.SendFormAsync(Page, "switch", ("on", "0"), ("mine-switch", SignInHouse.Good));
        Assert.False(house.People.Find("J/L")!.IsEnabled);
        Assert.Contains("switched off", (await browser.GetAsync("/people")).Text, StringComparison.Ordinal);
        await browser.SendFormAsync(Page, "switch", ("on", "1"), ("mine-switch", SignInHouse.Good));
        Assert.True(house.People.Find("J/L")!.IsEnabled);
    }

    [Fact]
    public async Task The_last_administrator_cannot_switch_themselves_off()
    {
        var browser = await AdministratorAsync();
        var answer = await browser.SendFormAsync(
            "/people/AB",
            "switch",
            ("on", "0"),
            ("mine-switch", SignInHouse.Good)
        );
        Assert.Contains("last administrator", answer.Text, StringComparison.Ordinal);
        Assert.Equal("AB", await browser.WhoAsync());
    }

    [Fact]
    public async Task A_person_who_does_not_exist_is_not_found_and_that_is_said()
    {
        var browser = await AdministratorAsync();
        var answer = await browser.GetAsync("/people/ZZ");
        Assert.Equal(HttpStatusCode.NotFound, answer.Status);
        Assert.Contains("/people/ZZ", answer.Text, StringComparison.Ordinal);
    }

    private async Task<Browser> AdministratorAsync()
    {
        await house.AddAsync("AB", ClinicRole.Administrator);
        return await house.SignedInAsync("AB");
    }

    private static Task<Answer> AddAsync(Browser browser, string who, string password) =>
        browser.SendFormAsync(
            "/people",
            "add-person",
            ("who", who),
            ("role", "Examiner"),
            ("role", "Clinician"),
            ("password", password),
            ("again", password),
            ("mine", SignInHouse.Good)
        );
}
