using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Task = System.Threading.Tasks.Task;

namespace PupilBridge.Scenarios.Sending;

/// <summary>
/// A real HTTP server on loopback that takes FHIR transactions, searches by identifier and updates, and that does wrong what it is told to:
/// a stand-in for the server of another house, with an opinion of its own of what FHIR is (Firely's parser).
/// </summary>
public sealed class SmallFhirServer : IAsyncDisposable
{
    private const string Fhir = "application/fhir+json";

    private WebApplication app;
    private int posts;

    private SmallFhirServer(WebApplication app) => this.app = app;

    /// <summary>What it keeps.</summary>
    public FhirShelf Shelf { get; } = new();

    /// <summary>Chooses the fault of each posted transaction by its number, from 1.</summary>
    public Func<int, ServerFault> Faults { get; set; } = _ => ServerFault.None;

    /// <summary>How long a slow answer takes.</summary>
    public TimeSpan Slowness { get; set; } = TimeSpan.FromSeconds(2);

    /// <summary>How long the storing of <see cref="ServerFault.StoresLate"/> takes.</summary>
    public TimeSpan Lateness { get; set; } = TimeSpan.FromMilliseconds(400);

    /// <summary>Whether searches get an answer that is none.</summary>
    public bool LiesAboutSearches { get; set; }

    /// <summary>How many transactions were posted.</summary>
    public int Posts => Volatile.Read(ref posts);

    /// <summary>How many searches were made.</summary>
    public int Searches { get; private set; }

    /// <summary>The header of the last request that names who asks; empty for none.</summary>
    public string LastAuthorization { get; private set; } = "";

    /// <summary>Who is let in, as that header says it; null for everybody.</summary>
    public string? Secret { get; set; }

    /// <summary>The text of the last posted transaction.</summary>
    public string LastPosted { get; private set; } = "";

    /// <summary>Its base address.</summary>
    public Uri Address { get; private set; } = new("http://127.0.0.1/");

    /// <summary>Starts one on a free port.</summary>
    public static async Task<SmallFhirServer> StartAsync()
    {
        var server = new SmallFhirServer(null!);
        await server.ServeAsync(0);
        return server;
    }

    /// <summary>Goes away.</summary>
    public async Task VanishAsync() => await app.DisposeAsync();

    /// <summary>Comes back under the same address, with what it kept.</summary>
    public Task ComeBackAsync() => ServeAsync(Address.Port);

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => app.DisposeAsync();

    private async Task ServeAsync(int port)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls($"http://127.0.0.1:{port}");
        app = builder.Build();
        app.Use(
            async (context, next) =>
            {
                if (Secret is null || context.Request.Headers.Authorization.ToString() == Secret)
                {
                    await next(context);
                    return;
                }

                await Said(401, "who are you?").ExecuteAsync(context);
            }
        );
        // Said outright: as a plain request delegate its answer would be dropped.
        app.MapPost("/fhir", (Delegate)TakeAsync);
        app.MapGet("/fhir/{type}", SearchAsync);
        app.MapGet("/fhir/{type}/{id}", (string type, string id) => Answer(Shelf.Get($"{type}/{id}")));
        app.MapPut("/fhir/{type}/{id}", ReplaceAsync);
        await app.StartAsync();
        Address = new Uri($"{app.Urls.First()}/fhir");
    }

    private async Task<IResult> TakeAsync(HttpContext context)
    {
        var fault = Faults(Interlocked.Increment(ref posts));
        LastAuthorization = context.Request.Headers.Authorization.ToString();
        using var reader = new StreamReader(context.Request.Body);
        var json = LastPosted = await reader.ReadToEndAsync();
        switch (fault)
        {
            case ServerFault.Refuses:
                return Said(400, "this house takes no such record");
            case ServerFault.Overloaded:
                return Said(503, "too much to do");
            case ServerFault.Fails:
                return Said(500, "something broke");
            case ServerFault.WantsPatience:
                context.Response.Headers.RetryAfter = "1";
                return Said(429, "not so fast");
            case ServerFault.CutsBefore:
                context.Abort();
                return Results.Empty;
            case ServerFault.LiesBefore:
                return Results.Text("<html>all is well</html>", "text/html");
            case ServerFault.StoresLate:
                _ = Task.Delay(Lateness).ContinueWith(_ => Shelf.Take(json), TaskScheduler.Default);
                context.Abort();
                return Results.Empty;
        }

        if (Shelf.Take(json) is not { } answer)
        {
            return Said(412, "more than one fits");
        }

        switch (fault)
        {
            case ServerFault.Slow:
                await Task.Delay(Slowness);
                break;
            case ServerFault.CutsAfter:
                context.Abort();
                return Results.Empty;
            case ServerFault.LiesAfter:
                return Results.Text("{\"resourceType\":\"Bundle\",\"type\":\"transaction-response\"}", Fhir);
        }

        return Answer(answer);
    }

    private IResult SearchAsync(string type, HttpContext context)
    {
        Searches++;
        return LiesAboutSearches
            ? Results.Text("{}", Fhir)
            : Answer(Shelf.Search(type, context.Request.QueryString.Value!.TrimStart('?')));
    }

    private async Task<IResult> ReplaceAsync(string type, string id, HttpContext context)
    {
        using var reader = new StreamReader(context.Request.Body);
        var json = await reader.ReadToEndAsync();
        var path = $"{type}/{id}";
        var wanted = context.Request.Headers.IfMatch.ToString();
        if (wanted.Length > 0 && wanted != $"W/\"{Shelf.Get(path)?.VersionId}\"")
        {
            return Said(412, "it has changed");
        }

        return Shelf.Replace(path, json) ? Answer(Shelf.Get(path)) : Said(404, "there is none");
    }

    private static IResult Said(int code, string words) =>
        Results.Text(
            FhirShelf.Write(
                new OperationOutcome
                {
                    Issue =
                    [
                        new OperationOutcome.IssueComponent
                        {
                            Severity = OperationOutcome.IssueSeverity.Error,
                            Code = OperationOutcome.IssueType.Processing,
                            Diagnostics = words,
                        },
                    ],
                }
            ),
            Fhir,
            statusCode: code
        );

    private static IResult Answer(Resource? resource) =>
        resource is null ? Said(404, "there is none") : Results.Text(FhirShelf.Write(resource), Fhir);
}
