using System.Net;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

public sealed class SessionTests : IDisposable
{
    private readonly SignInHouse house = new();

    public void Dispose() => house.Dispose();

    [Theory]
    [InlineData("password")]
    [InlineData("roles")]
    [InlineData("disabled")]
    public async Task A_change_of_the_person_ends_the_session_at_once(string what)
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        await house.ChangeAsync(
            "MK",
            what switch
            {
                "password" => new PersonChange(Password: "four grey pilots"),
                "roles" => new PersonChange(Roles: ClinicRole.Technician),
                _ => new PersonChange(IsEnabled: false),
            }
        );
        Assert.Null(await browser.WhoAsync());
        Assert.StartsWith("/sign-in", Path(await browser.GetAsync("/exams")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Ones_own_new_password_keeps_this_browser_signed_in_and_signs_off_the_others()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var here = await house.SignedInAsync("MK");
        var there = await house.SignedInAsync("MK");
        var answer = await here.SendFormAsync(
            "/account",
            "own-password",
            ("old", SignInHouse.Good),
            ("password", "four grey pilots"),
            ("again", "four grey pilots")
        );
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Contains("password was changed", answer.Text, StringComparison.Ordinal);
        Assert.Equal("MK", await here.WhoAsync());
        Assert.Null(await there.WhoAsync());
    }

    [Fact]
    public async Task Who_does_nothing_for_ten_minutes_is_signed_off_and_that_is_journalled_without_being_asked()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        house.Time.Advance(TimeSpan.FromMinutes(10));
        Assert.Equal("MK", await browser.WhoAsync());
        house.Time.Advance(TimeSpan.FromSeconds(5));
        await Eventually.Is(() => house.Journal.SignIns.Contains("MK SignedOffIdle console"));
        Assert.Null(await browser.WhoAsync());
        Assert.Equal(1, house.Journal.SignIns.Count(note => note == "MK SignedOffIdle console"));
    }

    [Fact]
    public async Task What_a_person_does_keeps_the_session_and_what_a_page_asks_by_itself_does_not()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        var first = (await browser.SessionAsync()).Until;
        house.Time.Advance(TimeSpan.FromMinutes(6));
        await browser.GetAsync("/assets/css/face.css");
        Assert.Equal(first, (await browser.SessionAsync()).Until);
        await browser.GetAsync("/account");
        Assert.Equal(first + TimeSpan.FromMinutes(6), (await browser.SessionAsync()).Until);
        house.Time.Advance(TimeSpan.FromMinutes(6));
        Assert.Equal("MK", await browser.WhoAsync());
    }

    [Fact]
    public async Task A_restart_of_the_service_signs_nobody_off_and_brings_nobody_back()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        await house.AddAsync("JL", ClinicRole.Examiner);
        var stays = await house.SignedInAsync("MK");
        var goes = await house.SignedInAsync("JL");
        var copied = goes.Copy();
        await goes.SendFormAsync("/sign-off", "sign-off");
        Assert.Null(await copied.WhoAsync());
        house.Restart();
        Assert.Equal("MK", await stays.WhoAsync());
        Assert.Null(await copied.WhoAsync());
        house.Time.Advance(TimeSpan.FromMinutes(11));
        Assert.Null(await stays.WhoAsync());
    }

    [Fact]
    public async Task Keys_and_sessions_are_for_their_owner_alone()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        await house.SignedInAsync("MK");
        var keys = new DirectoryInfo(System.IO.Path.Combine(house.Folder, "access-keys"));
        Assert.NotEmpty(keys.EnumerateFiles("key-*.xml"));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, keys.UnixFileMode);
            Assert.Equal(
                UnixFileMode.UserRead | UnixFileMode.UserWrite,
                keys.EnumerateFiles("sessions.json").Single().UnixFileMode
            );
        }
    }

    [Fact]
    public async Task A_cookie_that_was_tampered_with_opens_nothing()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        var cookie = browser.Cookies.Split("; ").Single(c => c.StartsWith("pupilbridge=", StringComparison.Ordinal));
        var middle = cookie.Length / 2;
        var bent = cookie[..middle] + (cookie[middle] == 'A' ? 'B' : 'A') + cookie[(middle + 1)..];
        using var request = new HttpRequestMessage(HttpMethod.Get, "/account");
        request.Headers.TryAddWithoutValidation("Cookie", bent);
        using var client = house.Client();
        using var answer = await client.SendAsync(request);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
    }

    private static string Path(Answer answer) => new Uri(new Uri("http://localhost"), answer.Location).PathAndQuery;
}
