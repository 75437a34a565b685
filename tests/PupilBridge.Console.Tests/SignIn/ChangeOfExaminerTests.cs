using System.Net;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>The quick change of examiner at a lane, as the lane's script asks for it.</summary>
public sealed class ChangeOfExaminerTests : IDisposable
{
    private const string Path = "/api/v1/session/change";
    private readonly SignInHouse house = new();

    public void Dispose() => house.Dispose();

    [Fact]
    public async Task Another_examiner_takes_over_and_gets_a_token_that_fits()
    {
        var browser = await TwoAsync();
        var token = (await browser.SessionAsync()).Token;
        var answer = await browser.PostAsync(Path, Change("JL"), token);
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        using var json = JsonDocument.Parse(answer.Text);
        Assert.Equal("JL", json.RootElement.GetProperty("who").GetString());
        Assert.Equal("JL", await browser.WhoAsync());
        var back = await browser.PostAsync(Path, Change("MK"), json.RootElement.GetProperty("formToken").GetString());
        Assert.Equal(HttpStatusCode.OK, back.Status);
        Assert.Equal(
            ["MK SignedIn console", "JL SignedIn QA-0001", "MK SignedOff QA-0001"],
            house.Journal.SignIns.Take(3)
        );
    }

    [Fact]
    public async Task A_wrong_password_says_so_and_whoever_is_signed_in_stays()
    {
        var browser = await TwoAsync();
        var token = (await browser.SessionAsync()).Token;
        var answer = await browser.PostAsync(Path, Change("JL", "not the password"), token);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("Name or password is wrong", answer.Text, StringComparison.Ordinal);
        Assert.Equal("MK", await browser.WhoAsync());
    }

    [Fact]
    public async Task After_an_idle_sign_off_the_lanes_page_still_signs_in_with_the_token_that_it_has()
    {
        var browser = await TwoAsync();
        var token = (await browser.SessionAsync()).Token;
        house.Time.Advance(TimeSpan.FromMinutes(11));
        Assert.Equal(HttpStatusCode.OK, (await browser.PostAsync(Path, Change("JL"), token)).Status);
        Assert.Equal("JL", await browser.WhoAsync());
    }

    [Fact]
    public async Task Without_a_token_or_with_one_of_somebody_else_nothing_happens()
    {
        var browser = await TwoAsync();
        var other = await house.SignedInAsync("JL");
        var foreign = (await other.SessionAsync()).Token;
        foreach (var token in new[] { null, "nonsense", foreign })
        {
            var answer = await browser.PostAsync(Path, Change("JL"), token);
            Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        }

        Assert.Equal("MK", await browser.WhoAsync());
    }

    [Fact]
    public async Task It_is_as_slow_as_the_sign_in_page()
    {
        var browser = await TwoAsync();
        var token = (await browser.SessionAsync()).Token;
        var last = HttpStatusCode.OK;
        for (var n = 0; n < 11; n++)
        {
            last = (await browser.PostAsync(Path, Change("ZZ", "not the password"), token)).Status;
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, last);
    }

    [Fact]
    public async Task What_the_one_before_typed_is_taken_here_and_from_no_other_browser()
    {
        var browser = await TwoAsync();
        var token = (await browser.SessionAsync()).Token;
        await browser.PostAsync(Path, Change("JL"), token);
        Assert.IsType<EntryOutcome.Recorded>(await EnterAsync(browser, "JL", "MK"));
        var elsewhere = await house.SignedInAsync("JL");
        Assert.IsType<EntryOutcome.Refused>(await EnterAsync(elsewhere, "JL", "MK"));
        // Nobody signed in sends nothing, whoever was here before.
        Assert.IsType<EntryOutcome.Refused>(await EnterAsync(browser, null, "MK"));
        house.Time.Advance(TimeSpan.FromHours(13));
        Assert.IsType<EntryOutcome.Refused>(await EnterAsync(browser, "JL", "MK"));
    }

    [Fact]
    public async Task What_was_typed_just_before_the_longest_life_ended_is_taken_for_as_long_after_it()
    {
        using var busy = new SignInHouse(settings => settings with { IdleSignOff = TimeSpan.FromHours(23) });
        await busy.AddAsync("MK", ClinicRole.Examiner);
        await busy.AddAsync("JL", ClinicRole.Examiner);
        var browser = await busy.SignedInAsync("MK");
        var token = (await browser.SessionAsync()).Token;
        busy.Time.Advance(TimeSpan.FromHours(12) + TimeSpan.FromSeconds(5));
        Assert.Null(await browser.WhoAsync());
        Assert.Equal(HttpStatusCode.OK, (await browser.PostAsync(Path, Change("JL"), token)).Status);
        Assert.IsType<EntryOutcome.Recorded>(await EnterAsync(browser, "JL", "MK", busy));
        busy.Time.Advance(TimeSpan.FromHours(11));
        Assert.IsType<EntryOutcome.Recorded>(await EnterAsync(browser, "JL", "MK", busy));
        busy.Time.Advance(TimeSpan.FromHours(2));
        Assert.IsType<EntryOutcome.Refused>(await EnterAsync(browser, "JL", "MK", busy));
    }

    /// <summary>Enters something through the desk as a request with a browser's cookies gets it.</summary>
    private async Task<EntryOutcome> EnterAsync(
        Browser browser,
        string? signedIn,
        string typedBy,
        SignInHouse? other = null
    )
    {
        var at = other ?? house;
        using var scope = at.Service<IServiceScopeFactory>().CreateScope();
        var context = new DefaultHttpContext { RequestServices = scope.ServiceProvider };
        context.Request.Headers.Cookie = browser.Cookies;
        if (signedIn is not null)
        {
            context.User = new(
                new System.Security.Claims.ClaimsIdentity(
                    [
                        new(System.Security.Claims.ClaimTypes.Name, signedIn),
                        new(System.Security.Claims.ClaimTypes.Role, nameof(ClinicRole.Examiner)),
                    ],
                    "test"
                )
            );
        }

        scope.ServiceProvider.GetRequiredService<IHttpContextAccessor>().HttpContext = context;
        return await scope
            .ServiceProvider.GetRequiredService<IClinicDesk>()
            .EnterAsync(
                new NoteEntry
                {
                    EntryId = "00112233445566778899aabbccddeeff",
                    Who = typedBy,
                    At = at.Time.GetUtcNow(),
                    ProgramVersion = "0.0-test",
                    Exam = 1,
                    Text = "t",
                },
                CancellationToken.None
            );
    }

    private async Task<Browser> TwoAsync()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        await house.AddAsync("JL", ClinicRole.Examiner);
        return await house.SignedInAsync("MK");
    }

    private static object Change(string who, string password = SignInHouse.Good) =>
        new
        {
            who,
            password,
            lane = "QA-0001",
        };
}
