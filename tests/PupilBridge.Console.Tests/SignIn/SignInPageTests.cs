using System.Net;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

public sealed class SignInPageTests : IDisposable
{
    private readonly SignInHouse house = new();

    public void Dispose() => house.Dispose();

    [Fact]
    public async Task The_first_start_makes_the_administrator_with_the_code_and_signs_them_in()
    {
        var browser = house.Browse();
        Assert.Equal("/first-start", (await browser.GetAsync("/sign-in")).Location);
        var wrong = await FirstStartAsync(browser, "ABCD-EFGH-JKMN");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("not the code", wrong.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"AB\"", wrong.Text, StringComparison.Ordinal);
        Assert.Empty(house.People.List());

        var done = await FirstStartAsync(browser, house.People.FirstCode!.ToLowerInvariant());
        Assert.Equal("/people", done.Location);
        Assert.Equal("AB", await browser.WhoAsync());
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/people")).Status);
        Assert.Equal("/sign-in", (await house.Browse().GetAsync("/first-start")).Location);
    }

    [Fact]
    public async Task A_wrong_password_is_said_and_the_name_is_kept_and_the_password_is_not()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = house.Browse();
        var answer = await browser.SignInAsync("MK", "wrong & \"quoted\"");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("role=\"alert\"", answer.Text, StringComparison.Ordinal);
        Assert.Contains("Name or password is wrong", answer.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"MK\"", answer.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("quoted", answer.Text, StringComparison.Ordinal);
        Assert.Null(await browser.WhoAsync());
        // The form that was refused can be sent again as it stands.
        await browser.GetAsync("/sign-in");
        Assert.Equal("/", (await browser.SignInAsync("MK", SignInHouse.Good)).Location);
    }

    [Theory]
    [InlineData("/exams?status=open", "/exams?status=open")]
    [InlineData("https://elsewhere.example/", "/")]
    [InlineData("//elsewhere.example/", "/")]
    [InlineData("/\\elsewhere.example/", "/")]
    [InlineData("", "/")]
    public async Task It_leads_on_to_where_one_wanted_to_go_but_never_to_another_site(string then, string to)
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = house.Browse();
        var answer = await browser.SignInAsync("MK", SignInHouse.Good, $"/sign-in?then={Uri.EscapeDataString(then)}");
        Assert.Equal(to, answer.Location);
    }

    [Fact]
    public async Task A_page_that_needs_a_sign_in_leads_to_it_and_back()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = house.Browse();
        var asked = await browser.GetAsync("/exams?status=open");
        Assert.Equal("/sign-in?then=%2Fexams%3Fstatus%3Dopen", asked.Location!);
        Assert.Equal(
            "/exams?status=open",
            (await browser.SignInAsync("MK", SignInHouse.Good, asked.Location!)).Location
        );
    }

    [Fact]
    public async Task Five_wrong_passwords_lock_the_name_and_even_the_right_one_does_not_help()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = house.Browse();
        for (var n = 0; n < 5; n++)
        {
            await browser.SignInAsync("MK", "not the password");
        }

        var answer = await browser.SignInAsync("MK", SignInHouse.Good);
        Assert.Contains("locked until 08:05", answer.Text, StringComparison.Ordinal);
        Assert.Null(await browser.WhoAsync());
    }

    [Fact]
    public async Task More_tries_for_a_name_than_a_person_makes_are_put_off_whoever_makes_them()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        for (var n = 0; n < 10; n++)
        {
            Assert.NotEqual(
                HttpStatusCode.TooManyRequests,
                (await house.Browse().SignInAsync("ZZ", "not the password")).Status
            );
        }

        var answer = await house.Browse().SignInAsync(" zz ", "not the password");
        Assert.Equal(HttpStatusCode.TooManyRequests, answer.Status);
        Assert.Contains("Wait a minute", answer.Text, StringComparison.Ordinal);
        // Another name is not kept waiting yet.
        await house.SignedInAsync("MK");
    }

    [Fact]
    public async Task More_tries_from_one_address_than_people_make_are_put_off_whatever_the_name()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var tried = 0;
        while ((await house.Browse().SignInAsync($"N{tried}", "x")).Status != HttpStatusCode.TooManyRequests)
        {
            Assert.True(++tried <= 30, "31 sign-ins in a row were let through.");
        }

        Assert.Equal(30, tried);
    }

    [Fact]
    public async Task Signing_off_takes_a_form_and_ends_the_session()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        await browser.GetAsync("/sign-off");
        Assert.Equal("MK", await browser.WhoAsync());
        Assert.Equal("/sign-in?off=1", (await browser.SendFormAsync("/sign-off", "sign-off")).Location);
        Assert.Null(await browser.WhoAsync());
        Assert.Contains("signed off", (await browser.GetAsync("/sign-in?off=1")).Text, StringComparison.Ordinal);
        Assert.Equal(["MK SignedIn console", "MK SignedOff console"], house.Journal.SignIns);
    }

    [Theory]
    [InlineData("", "dark")]
    [InlineData("face=light", "light")]
    public async Task It_comes_in_the_face_that_was_chosen_and_dark_otherwise(string cookie, string face)
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/sign-in");
        request.Headers.TryAddWithoutValidation("Cookie", cookie);
        using var client = house.Client();
        using var answer = await client.SendAsync(request);
        Assert.Contains($"data-face=\"{face}\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    private Task<Answer> FirstStartAsync(Browser browser, string code) =>
        browser.SendFormAsync(
            "/first-start",
            "first-start",
            ("code", code),
            ("who", "AB"),
            ("password", SignInHouse.Good),
            ("again", SignInHouse.Good)
        );
}
