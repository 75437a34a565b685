using System.Net;
using Microsoft.AspNetCore.Routing;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>
/// Walks over every route that is mapped, as every role and as nobody, against a table written here by hand. A route that is not in
/// the table fails: who may go there is decided on purpose.
/// </summary>
public sealed class RouteWalkTests : IDisposable
{
    private const ClinicRole Examining = ClinicRole.Examiner | ClinicRole.Clinician;
    private const ClinicRole SignedIn = Examining | ClinicRole.Technician | ClinicRole.Administrator;
    private const ClinicRole Everybody = SignedIn | ClinicRole.None | (ClinicRole)64;

    /// <summary>Who may, by the beginning of the route; the longest that fits counts.</summary>
    private static readonly Dictionary<string, ClinicRole> May = new(StringComparer.Ordinal)
    {
        ["/"] = SignedIn,
        ["/lanes"] = SignedIn,
        ["/lane/"] = Examining,
        ["/lane-keys"] = Everybody,
        ["/assets/"] = Everybody,
        // The page framework's own; it follows redirects for scripts, of which our pages have none.
        ["/_framework/"] = SignedIn,
        ["/face"] = Everybody,
        ["/fault/"] = Everybody,
        ["/sign-in"] = Everybody,
        ["/first-start"] = Everybody,
        ["/sign-off"] = Everybody,
        ["/account"] = SignedIn,
        ["/people"] = ClinicRole.Administrator,
        ["/audit"] = ClinicRole.Administrator,
        ["/outbox"] = ClinicRole.Administrator,
        ["/erasing"] = ClinicRole.Administrator,
        ["/instruments"] = Examining | ClinicRole.Technician,
        ["/bench"] = Examining | ClinicRole.Technician,
        ["/bench/discs"] = ClinicRole.Technician,
        ["/bench/begin/"] = ClinicRole.Technician,
        ["/bench/lamps/"] = ClinicRole.Technician,
        ["/bench/runs/{Run:long}/certificate"] = ClinicRole.Technician,
        ["/bench/runs/{run:long}/certificate/"] = ClinicRole.Technician,
        ["/patients"] = Examining,
        ["/exams"] = Examining,
        ["/review"] = ClinicRole.Clinician,
        ["/day"] = Examining,
        ["/keys"] = ClinicRole.Administrator,
        ["/api/v1"] = Everybody,
        ["/api/v1/openapi.json"] = Everybody,
        ["/api/v1/exams"] = Examining,
        ["/api/v1/tables/"] = Examining,
        ["/api/v1/events"] = Examining,
        ["/api/v1/instruments"] = Examining | ClinicRole.Technician,
        ["/api/v1/session"] = Everybody,
        ["/api/v1/entries"] = Examining,
        ["/api/v1/patients"] = Examining,
        ["/api/v1/day-list"] = Examining,
        ["/api/v1/lanes"] = Examining | ClinicRole.Technician,
        ["/api/v1/lanes/"] = Examining,
        ["/api/v1/lanes/{serial}/switch-off"] = Examining | ClinicRole.Technician,
    };

    private const string SomeEntry = """
        {"entry":"note","text":"t","exam":1,"entryId":"00112233445566778899aabbccddeeff","who":"MK","at":"2026-03-02T08:00:00Z",
        "programVersion":"0.0-test"}
        """;

    private readonly SignInHouse house = new();

    public static TheoryData<ClinicRole> Each =>
        [ClinicRole.None, ClinicRole.Examiner, ClinicRole.Clinician, ClinicRole.Technician, ClinicRole.Administrator];

    public void Dispose() => house.Dispose();

    [Theory]
    [MemberData(nameof(Each))]
    public async Task Every_route_is_open_to_those_who_may_and_to_no_other(ClinicRole role)
    {
        await house.AddAsync("AD", ClinicRole.Administrator);
        var browser = house.Browse();
        if (role != ClinicRole.None)
        {
            await house.AddAsync("MK", role);
            browser = await house.SignedInAsync("MK");
        }

        var token = (await browser.SessionAsync()).Token;
        var walked = 0;
        foreach (var route in house.Routes)
        {
            var pattern = "/" + route.RoutePattern.RawText!.TrimStart('/');
            var may = May.Where(row => pattern.StartsWith(row.Key, StringComparison.Ordinal))
                .OrderByDescending(row => row.Key.Length)
                .Where(row => row.Key is not ("/" or "/api/v1") || pattern == row.Key)
                .Select(row => (ClinicRole?)row.Value)
                .FirstOrDefault();
            Assert.True(may is not null, $"{pattern} has no row in the table of who may; add one on purpose.");
            foreach (var method in Methods(route))
            {
                var answer = await browser.Copy().SendAsync(Request(method, Filled(pattern), token));
                var isOpen = may.Value.HasFlag(role == ClinicRole.None ? (ClinicRole)64 : role);
                Assert.True(
                    isOpen == !IsRefused(answer),
                    $"{method} {pattern} as {role}: {(int)answer.Status} {answer.Location}"
                );
                walked++;
            }
        }

        Assert.True(walked > 15, $"Only {walked} routes were walked over.");
    }

    [Fact]
    public async Task A_page_refused_for_the_role_says_which_role_it_needs()
    {
        await house.AddAsync("AD", ClinicRole.Administrator);
        var browser = await house.SignedInAsync("AD");
        var answer = await browser.GetAsync("/patients");
        Assert.Equal(HttpStatusCode.Forbidden, answer.Status);
        Assert.Contains("examiner or clinician", answer.Text, StringComparison.Ordinal);
    }

    /// <summary>Whether the door stayed shut; what lies behind it may go wrong in this test, whose desks are empty.</summary>
    private static bool IsRefused(Answer answer) =>
        answer.Text.Contains("\"outcome\":\"refused\"", StringComparison.Ordinal)
        || answer.Status is HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden
        || (
            answer.Status == HttpStatusCode.Redirect && answer.Location!.Contains("/sign-in?", StringComparison.Ordinal)
        );

    private static IEnumerable<HttpMethod> Methods(RouteEndpoint route) =>
        (
            route.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods is { Count: > 0 } named
                ? named
                : (IReadOnlyList<string>)["GET"]
        )
            .Where(name => name is "GET" or "POST" or "PUT" or "DELETE")
            .Select(name => new HttpMethod(name));

    private static HttpRequestMessage Request(HttpMethod method, string path, string token)
    {
        var request = new HttpRequestMessage(method, path);
        if (method != HttpMethod.Get)
        {
            request.Headers.Add("X-PupilBridge-Form", token);
            request.Content = path.StartsWith("/api", StringComparison.Ordinal)
                ? new StringContent(SomeEntry, System.Text.Encoding.UTF8, "application/json")
                : new FormUrlEncodedContent([]);
        }

        return request;
    }

    private static string Filled(string pattern) =>
        System.Text.RegularExpressions.Regex.Replace(
            pattern,
            @"\{[^}]*\}",
            place =>
                place.Value.Contains("long", StringComparison.Ordinal)
                || place.Value.Contains("int", StringComparison.Ordinal)
                    ? "1"
                    : "x"
        );
}
