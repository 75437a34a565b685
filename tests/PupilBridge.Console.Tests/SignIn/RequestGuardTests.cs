using System.Net;
using System.Net.Http.Json;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>What is asked of every request: its name for us, where it comes from, its token, its size; and what every answer says.</summary>
public sealed class RequestGuardTests : IDisposable
{
    private readonly SignInHouse house = new(settings => settings with { Hosts = ["lane-pc.quay.example"] });

    public void Dispose() => house.Dispose();

    [Theory]
    [InlineData("localhost", true)]
    [InlineData("localhost:7407", true)]
    [InlineData("127.0.0.1:7407", true)]
    [InlineData("[::1]:7407", true)]
    [InlineData("lane-pc.quay.example", true)]
    [InlineData("LANE-PC.quay.example", true)]
    [InlineData("rebound.example", false)]
    [InlineData("localhost.rebound.example", false)]
    [InlineData("192.0.2.7", false)]
    public async Task Only_under_our_own_names_are_we_at_home(string host, bool isOurs)
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        foreach (var path in new[] { "/sign-in", "/assets/css/face.css", "/api/v1/session" })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, path);
            request.Headers.Host = host;
            // What a proxy claims is not read.
            request.Headers.Add("X-Forwarded-Host", isOurs ? "rebound.example" : "localhost");
            request.Headers.Add("Forwarded", isOurs ? "host=rebound.example" : "host=localhost");
            using var client = house.Client();
            using var answer = await client.SendAsync(request);
            Assert.Equal(isOurs ? HttpStatusCode.OK : HttpStatusCode.BadRequest, answer.StatusCode);
        }
    }

    [Fact]
    public async Task A_forwarded_address_does_not_get_around_the_pace()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var last = HttpStatusCode.OK;
        for (var n = 0; n <= 30; n++)
        {
            var browser = house.Browse();
            var (_, token, _) = await browser.SessionAsync();
            var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/session/change")
            {
                Content = JsonContent.Create(new { who = $"N{n}", password = "x" }),
            };
            request.Headers.Add("X-PupilBridge-Form", token);
            request.Headers.Add("X-Forwarded-For", $"192.0.2.{n}");
            last = (await browser.SendAsync(request)).Status;
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, last);
    }

    [Theory]
    [InlineData("http://localhost:9999")]
    [InlineData("http://127.0.0.1")]
    [InlineData("https://localhost")]
    [InlineData("https://elsewhere.example")]
    [InlineData("null")]
    public async Task What_changes_something_comes_from_our_own_origin(string origin)
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = house.Browse();
        var (_, token, _) = await browser.SessionAsync();
        var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/session/change")
        {
            Content = JsonContent.Create(new { who = "MK", password = SignInHouse.Good }),
        };
        request.Headers.Add("X-PupilBridge-Form", token);
        request.Headers.Add("Origin", origin);
        Assert.Equal(HttpStatusCode.Forbidden, (await browser.SendAsync(request)).Status);
        Assert.Null(await browser.WhoAsync());
    }

    [Theory]
    [InlineData("/sign-in", "sign-in")]
    [InlineData("/account", "own-password")]
    [InlineData("/people", "add-person")]
    [InlineData("/people/MK", "switch")]
    [InlineData("/sign-off", "sign-off")]
    public async Task A_form_without_its_token_does_nothing(string path, string form)
    {
        await house.AddAsync("MK", ClinicRole.Administrator);
        await house.AddAsync("JL", ClinicRole.Administrator);
        var browser = await house.SignedInAsync("MK");
        var before = house.People.List();
        var fields = new Dictionary<string, string>
        {
            ["_handler"] = form,
            ["who"] = "NEW",
            ["password"] = "four grey pilots",
            ["again"] = "four grey pilots",
            ["old"] = SignInHouse.Good,
            ["role"] = "Examiner",
            ["on"] = "0",
            ["mine"] = SignInHouse.Good,
            ["mine-switch"] = SignInHouse.Good,
        };
        var answer = await browser.SendAsync(
            new HttpRequestMessage(HttpMethod.Post, path) { Content = new FormUrlEncodedContent(fields) }
        );
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(before, house.People.List());
        Assert.Equal("MK", await browser.WhoAsync());
    }

    [Fact]
    public async Task Every_answer_bears_the_policy_and_says_that_nothing_is_kept()
    {
        await house.AddAsync("MK", ClinicRole.Administrator | ClinicRole.Clinician);
        var browser = await house.SignedInAsync("MK");
        string[] paths =
        [
            "/sign-in",
            "/sign-off",
            "/account",
            "/people",
            "/people/MK",
            "/people/nobody",
            "/",
            "/no-such-page",
            "/assets/css/face.css",
            "/assets/none.css",
            "/api/v1/session",
            "/api/v1/none",
        ];
        foreach (var path in paths)
        {
            var answer = await browser.GetAsync(path);
            Assert.True(
                answer.Headers.GetValueOrDefault("Content-Security-Policy")
                    == "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; font-src 'self'; "
                        + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
                $"{path}: {answer.Status} {answer.Headers.GetValueOrDefault("Content-Security-Policy")}"
            );
            Assert.Equal("nosniff", answer.Headers["X-Content-Type-Options"]);
            Assert.Equal("DENY", answer.Headers["X-Frame-Options"]);
            Assert.Equal("same-origin", answer.Headers["Referrer-Policy"]);
            Assert.Equal(
                path.StartsWith("/assets/css", StringComparison.Ordinal) ? "no-cache" : "no-store",
                path == "/assets/none.css" ? "no-store" : answer.Headers["Cache-Control"]
            );
            Assert.DoesNotContain("style=", answer.Text, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("<style", answer.Text, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("http://", answer.Text.Replace("http://www.w3.org", ""), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Cookies_are_for_us_alone_and_out_of_a_scripts_reach()
    {
        await house.AddAsync("kowalska-of-the-quay", ClinicRole.Examiner);
        var browser = await house.SignedInAsync("kowalska-of-the-quay");
        Assert.Equal(
            ["pupilbridge", "pupilbridge-form", "pupilbridge-seat"],
            browser.Set.Keys.Order(StringComparer.Ordinal)
        );
        Assert.All(
            browser.Set.Values,
            cookie =>
            {
                Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
                Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
                Assert.Contains("path=/", cookie, StringComparison.OrdinalIgnoreCase);
                Assert.DoesNotContain("domain=", cookie, StringComparison.OrdinalIgnoreCase);
                Assert.DoesNotContain("kowalska-of-the-quay", cookie, StringComparison.Ordinal);
            }
        );
    }

    [Theory]
    [InlineData("/sign-in", 17 * 1024)]
    [InlineData("/api/v1/session/change", 17 * 1024)]
    public async Task What_is_longer_than_anybody_types_is_not_read(string path, int bytes)
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var browser = house.Browse();
        var (_, token, _) = await browser.SessionAsync();
        var request = new HttpRequestMessage(HttpMethod.Post, path)
        {
            Content = new StringContent(new string('x', bytes)),
        };
        request.Headers.Add("X-PupilBridge-Form", token);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await browser.SendAsync(request)).Status);
    }
}
