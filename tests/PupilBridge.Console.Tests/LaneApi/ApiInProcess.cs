using System.Net.Http.Headers;
using System.Net.ServerSentEvents;
using System.Security.Claims;
using System.Text;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.TestHost;
using Moq;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.Tests.Hosting;

namespace PupilBridge.Console.Tests.LaneApi;

/// <summary>
/// The console in this process with somebody signed in: who that is stands in two headers of each request, in place of the cookie that
/// other tests are about.
/// </summary>
internal sealed class ApiInProcess : IAsyncDisposable
{
    private const string NameHeader = "Test-Who";
    private const string RolesHeader = "Test-Roles";
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pupilbridge-api-");
    private readonly WebApplication app;

    public ApiInProcess(TimeProvider? time = null, IClinicDesk? clinic = null, ILaneDesk? lanes = null)
    {
        app = StartedConsole.Start(
            StartedConsole.Settings(folder),
            new ConsoleDesks(
                clinic ?? Clinic.Object,
                lanes ?? Lanes.Object,
                Records.Object,
                new Mock<IBenchDesk>().Object,
                People.Object
            ),
            time ?? TimeProvider.System,
            first: before =>
            {
                before.Use(SignIn);
                before
                    .MapGet(
                        "/test-token",
                        (HttpContext context, IAntiforgery forms) => forms.GetAndStoreTokens(context).RequestToken
                    )
                    .AllowAnonymous();
            }
        );
        Browser = app.GetTestServer().CreateClient();
    }

    public Mock<IClinicDesk> Clinic { get; } = new();

    public Mock<ILaneDesk> Lanes { get; } = new();

    public Mock<IRecordDesk> Records { get; } = new();

    public Mock<IPeopleDesk> People { get; } = new();

    public HttpClient Browser { get; }

    /// <summary>Somebody signs in.</summary>
    public ApiInProcess As(string who, params string[] roles)
    {
        Browser.DefaultRequestHeaders.Remove(NameHeader);
        Browser.DefaultRequestHeaders.Remove(RolesHeader);
        Browser.DefaultRequestHeaders.Add(NameHeader, who);
        Browser.DefaultRequestHeaders.Add(RolesHeader, string.Join(',', roles));
        return this;
    }

    /// <summary>Asks for a page's form token and its cookie, as a lane's page has them.</summary>
    public async Task<ApiInProcess> WithTokenAsync()
    {
        Browser.DefaultRequestHeaders.Remove("Cookie");
        var answer = await Browser.GetAsync("/test-token");
        var cookie = answer
            .Headers.GetValues("Set-Cookie")
            .Single(c => c.StartsWith("pupilbridge-form=", StringComparison.Ordinal));
        Browser.DefaultRequestHeaders.Remove("Cookie");
        Browser.DefaultRequestHeaders.Remove("X-PupilBridge-Form");
        Browser.DefaultRequestHeaders.Add("Cookie", cookie.Split(';')[0]);
        Browser.DefaultRequestHeaders.Add("X-PupilBridge-Form", await answer.Content.ReadAsStringAsync());
        return this;
    }

    public Task<HttpResponseMessage> PostAsync(string path, string json, string type = "application/json") =>
        Browser.PostAsync(path, new StringContent(json, Encoding.UTF8, new MediaTypeHeaderValue(type)));

    /// <summary>The events of a lane as they come.</summary>
    public async Task<(HttpResponseMessage Answer, IAsyncEnumerable<SseItem<string>> Events)> WatchAsync(
        string serial,
        CancellationToken cancellation
    )
    {
        var answer = await Browser.GetAsync(
            $"/api/v1/lanes/{serial}/events",
            HttpCompletionOption.ResponseHeadersRead,
            cancellation
        );
        var stream = await answer.Content.ReadAsStreamAsync(cancellation);
        return (answer, SseParser.Create(stream).EnumerateAsync(cancellation));
    }

    public Task StopAsync() => app.StopAsync();

    public async ValueTask DisposeAsync()
    {
        Browser.Dispose();
        await app.DisposeAsync();
        folder.Delete(recursive: true);
    }

    private static Task SignIn(HttpContext context, RequestDelegate next)
    {
        if (context.Request.Headers[NameHeader].ToString() is { Length: > 0 } who)
        {
            var roles = context
                .Request.Headers[RolesHeader]
                .ToString()
                .Split(',', StringSplitOptions.RemoveEmptyEntries);
            context.User = new ClaimsPrincipal(
                new ClaimsIdentity(
                    [new Claim(ClaimTypes.Name, who), .. roles.Select(role => new Claim(ClaimTypes.Role, role))],
                    "test"
                )
            );
        }

        return next(context);
    }
}
