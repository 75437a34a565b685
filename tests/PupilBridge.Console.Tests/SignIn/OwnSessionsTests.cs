using System.Net;
using System.Text.RegularExpressions;
using PupilBridge.Clinic.People;
using PupilBridge.Console.SignIn;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>A person sees where else they are signed in, and ends any of it; of others they see and end nothing.</summary>
public sealed partial class OwnSessionsTests : IDisposable
{
    // Long enough that no form token and no other drawn text on a page holds it by chance.
    private const string Other = "CRANEDRIVER";
    private readonly SignInHouse house = new();

    public static TheoryData<ClinicRole> Each =>
        [ClinicRole.Examiner, ClinicRole.Clinician, ClinicRole.Technician, ClinicRole.Administrator];

    public void Dispose() => house.Dispose();

    [Theory]
    [MemberData(nameof(Each))]
    public async Task Whoever_it_is_sees_their_own_sessions_and_no_others(ClinicRole role)
    {
        await house.AddAsync("MK", role);
        await house.AddAsync(Other, ClinicRole.Examiner);
        await house.SignedInAsync(Other);
        var here = await house.SignedInAsync("MK");
        house.Time.Advance(TimeSpan.FromMinutes(3));
        await Quay("Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0").SignInAsync("MK", Good);
        var page = (await here.GetAsync("/account")).Text;
        Assert.Equal(2, Tags(page).Count);
        Assert.Matches("2026-03-02 08:00</time> *\\(this browser\\)", page);
        Assert.Contains(
            "End it: signed in 2026-03-02 08:03, console, Firefox on Linux",
            page,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(Other, page, StringComparison.Ordinal);
        // The ids are what cookies are worth; they stand on no page.
        Assert.All(Book.Of("MK"), session => Assert.DoesNotContain(session.Id, page, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Another_session_is_ended_and_this_one_stays()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var there = await house.SignedInAsync("MK");
        house.Time.Advance(TimeSpan.FromMinutes(1));
        var here = await house.SignedInAsync("MK");
        var answer = await EndAsync(here, Tags((await here.GetAsync("/account")).Text)[0]);
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Single(Tags(answer.Text));
        Assert.Null(await there.WhoAsync());
        Assert.Equal("MK", await here.WhoAsync());
        Assert.Equal("MK SignedOff console", house.Journal.SignIns[^1]);
    }

    [Fact]
    public async Task All_but_this_one_are_ended_at_once()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        await house.AddAsync("JL", ClinicRole.Examiner);
        Browser[] others = [await house.SignedInAsync("MK"), await house.SignedInAsync("MK")];
        var someoneElse = await house.SignedInAsync("JL");
        var here = await house.SignedInAsync("MK");
        var answer = await EndAsync(here, "others");
        Assert.Contains("Sessions ended: 2.", answer.Text, StringComparison.Ordinal);
        foreach (var other in others)
        {
            Assert.Null(await other.WhoAsync());
        }

        Assert.Equal("MK", await here.WhoAsync());
        Assert.Equal("JL", await someoneElse.WhoAsync());
    }

    [Fact]
    public async Task Ending_this_one_is_signing_off()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var here = await house.SignedInAsync("MK");
        var copied = here.Copy();
        var page = (await here.GetAsync("/account")).Text;
        // It is what anybody may do at a screen that was left, so that no password is asked for.
        Assert.DoesNotContain("name=\"mine\"", page, StringComparison.Ordinal);
        var answer = await here.SendFormAsync("/account", "end-session", ("ended", Tags(page).Single()));
        Assert.Equal("/sign-in?off=1", answer.Location);
        Assert.Null(await copied.WhoAsync());
        Assert.Equal(1, house.Journal.SignIns.Count(note => note == "MK SignedOff console"));
    }

    [Fact]
    public async Task The_session_of_somebody_else_cannot_be_ended_even_by_its_tag_or_its_id()
    {
        await house.AddAsync("MK", ClinicRole.Administrator);
        await house.AddAsync("JL", ClinicRole.Examiner);
        var here = await house.SignedInAsync("MK");
        var theirs = await house.SignedInAsync("JL");
        var session = Book.Of("JL").Single();
        foreach (var named in new[] { session.Tag, session.Id, "", "no tag" })
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, (await EndAsync(here, named)).Status);
        }

        Assert.Equal("JL", await theirs.WhoAsync());
    }

    [Fact]
    public async Task Without_a_form_token_nothing_is_ended()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var there = await house.SignedInAsync("MK");
        var here = await house.SignedInAsync("MK");
        var answer = await here.SendAsync(
            new HttpRequestMessage(HttpMethod.Post, "/account")
            {
                Content = new FormUrlEncodedContent(
                    new Dictionary<string, string>
                    {
                        ["_handler"] = "end-session",
                        ["ended"] = "others",
                        ["mine"] = Good,
                    }
                ),
            }
        );
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("MK", await there.WhoAsync());
    }

    [Theory]
    [InlineData(
        "Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 Chrome/140.0 Safari/537.36",
        "Chrome",
        "Windows"
    )]
    [InlineData(
        "Mozilla/5.0 (Windows NT 10.0) AppleWebKit/537.36 Chrome/140.0 Safari/537.36 Edg/140.0",
        "Edge",
        "Windows"
    )]
    [InlineData(
        "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1 Version/18 Safari/605.1",
        "Safari",
        "macOS"
    )]
    [InlineData(
        "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1 CriOS/140 Safari/604.1",
        "Chrome",
        "iPhone"
    )]
    [InlineData("<script>alert(1)</script>", null, null)]
    [InlineData("", null, null)]
    [InlineData(null, null, null)]
    public void A_browser_is_told_in_plain_words_and_nothing_else_of_what_it_says_is_kept(
        string? agent,
        string? name,
        string? system
    ) => Assert.Equal(new CallingBrowser(name, system), CallingBrowser.Of(agent));

    private const string Good = SignInHouse.Good;

    private SessionBook Book => house.Service<SessionBook>();

    private static Task<Answer> EndAsync(Browser browser, string tag) =>
        browser.SendFormAsync("/account", "end-session", ("ended", tag), ("mine", Good));

    private Browser Quay(string agent) =>
        new(() =>
        {
            var client = house.Client();
            client.DefaultRequestHeaders.TryAddWithoutValidation("User-Agent", agent);
            return client;
        });

    private static List<string> Tags(string page) => [.. Tag().Matches(page).Select(match => match.Groups[1].Value)];

    [GeneratedRegex("name=\"ended\" value=\"([0-9a-f]{16})\"")]
    private static partial Regex Tag();
}
