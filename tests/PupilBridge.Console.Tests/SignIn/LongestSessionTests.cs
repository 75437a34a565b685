using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.SignIn;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>However busy somebody is, after a day of the clinic they give their password again; that is told before, and nothing is lost.</summary>
public sealed partial class LongestSessionTests : IDisposable
{
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);
    private readonly SignInHouse house = new(settings => settings with { LongestSession = Hour });

    public void Dispose() => house.Dispose();

    [Fact]
    public void Unless_set_otherwise_it_is_twelve_hours() =>
        Assert.Equal(
            TimeSpan.FromHours(12),
            new ConsoleSettings { DataFolder = "-", ProgramVersion = "0.0-test" }.LongestSession
        );

    [Fact]
    public async Task Who_works_on_is_signed_off_at_the_end_and_the_journal_says_why()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        await WorkAsync(browser, TimeSpan.FromMinutes(59));
        Assert.Equal("MK", await browser.WhoAsync());
        house.Time.Advance(TimeSpan.FromMinutes(1) + TimeSpan.FromSeconds(2));
        await Eventually.Is(() => house.Journal.SignIns.Contains("MK SignedOffLongest console"));
        Assert.Null(await browser.WhoAsync());
        Assert.DoesNotContain("MK SignedOffIdle console", house.Journal.SignIns);
    }

    [Fact]
    public async Task It_is_counted_on_over_a_restart_and_anew_from_the_next_sign_in()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        await WorkAsync(browser, TimeSpan.FromMinutes(40));
        house.Restart();
        await WorkAsync(browser, TimeSpan.FromMinutes(19));
        Assert.Equal("MK", await browser.WhoAsync());
        await browser.SignInAsync("MK", SignInHouse.Good);
        await WorkAsync(browser, TimeSpan.FromMinutes(59));
        Assert.Equal("MK", await browser.WhoAsync());
        house.Time.Advance(TimeSpan.FromMinutes(2));
        Assert.Null(await browser.WhoAsync());
    }

    [Fact]
    public async Task It_is_told_a_quarter_of_an_hour_before_and_known_to_pages_that_stand_open()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        await WorkAsync(browser, TimeSpan.FromMinutes(44));
        var early = Ending().Match((await browser.GetAsync("/account")).Text);
        Assert.Equal(16 * 60, int.Parse(early.Groups["seconds"].Value, CultureInfo.InvariantCulture));
        Assert.True(early.Groups["hidden"].Success);
        house.Time.Advance(TimeSpan.FromMinutes(1));
        var page = (await browser.GetAsync("/account")).Text;
        Assert.False(Ending().Match(page).Groups["hidden"].Success);
        // Signed in at 08:00 by the clinic's clock.
        Assert.Contains("At 09:00 you are signed off: 1 h", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_that_was_typed_before_is_taken_after_signing_in_again_in_another_tab()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("MK");
        await WorkAsync(browser, TimeSpan.FromMinutes(55));
        var token = Token().Match((await browser.GetAsync("/account")).Text).Groups[1].Value;
        house.Time.Advance(TimeSpan.FromMinutes(6));
        var late = await SendAsync(browser, token);
        Assert.Equal(HttpStatusCode.Redirect, late.Status);
        Assert.Equal("/sign-in?form=1", late.Location);
        await browser.SignInAsync("MK", SignInHouse.Good);
        var again = await SendAsync(browser, token);
        Assert.Equal(HttpStatusCode.OK, again.Status);
        Assert.Contains("password was changed", again.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_session_that_an_earlier_version_kept_begins_with_what_was_done_last()
    {
        var file = new SessionFile(house.Folder);
        var kept = Path.Combine(house.Folder, "access-keys", "sessions.json");
        File.WriteAllText(
            kept,
            """[{"id":"ab","who":"MK","stamp":"s","where":"QA-0001","lastActivity":"2026-03-02T07:59:00+00:00"}]"""
        );
        var session = Assert.Single(file.Read());
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 7, 59, 0, TimeSpan.Zero), session.Began);
        Assert.Equal(("QA-0001", null), (session.Place.Where, session.Place.Address));
    }

    /// <summary>Does something every five minutes.</summary>
    private async Task WorkAsync(Browser browser, TimeSpan time)
    {
        var step = TimeSpan.FromMinutes(5);
        for (var done = TimeSpan.Zero; done < time; done += step)
        {
            house.Time.Advance(time - done < step ? time - done : step);
            Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/account")).Status);
        }
    }

    private static Task<Answer> SendAsync(Browser browser, string token) =>
        browser.SendAsync(
            new HttpRequestMessage(HttpMethod.Post, "/account")
            {
                Content = new FormUrlEncodedContent(
                    new Dictionary<string, string>
                    {
                        ["_handler"] = "own-password",
                        ["__RequestVerificationToken"] = token,
                        ["old"] = SignInHouse.Good,
                        ["password"] = "four grey pilots",
                        ["again"] = "four grey pilots",
                    }
                ),
            }
        );

    [GeneratedRegex("""<p id="session-ending"[^>]*data-seconds="(?<seconds>\d+)"(?<hidden> hidden)?[^>]*>""")]
    private static partial Regex Ending();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
