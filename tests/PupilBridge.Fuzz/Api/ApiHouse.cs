using System.Security.Claims;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.TestHost;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Lanes;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Records;
using PupilBridge.Console.Hosting;
using PupilBridge.Worker;
using PupilBridge.Worker.Options;

namespace PupilBridge.Fuzz.Api;

/// <summary>
/// The console's web server in this process, without a socket, over a real bridge with a journal and exam log of its own; somebody with every
/// role is signed in and holds a form's token.
/// </summary>
internal sealed class ApiHouse : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pupilbridge-fuzz-");
    private readonly Bridge bridge;
    private readonly WebApplication app;

    public ApiHouse()
    {
        var data = Path.Combine(folder.FullName, "data");
        bridge = Bridge.Open(
            new BridgeParts
            {
                Options = new BridgeOptions { DataFolder = data },
                FindPorts = () => [],
            }
        );
        var house = new BridgeHouse(bridge, isLive: true);
        var (clinic, time) = (new ClinicDesk(house), TimeProvider.System);
        var desks = new ConsoleDesks(
            clinic,
            new LaneDesk(house, clinic, time),
            new RecordDesk(house, time),
            new BenchDesk(house, time),
            new PeopleDesk(
                new PeopleParts
                {
                    DataFolder = folder.FullName,
                    Time = time,
                    Random = RandomNumberGenerator.Create(),
                }
            )
        );
        app = Start(desks, time);
        Client = app.GetTestClient();
        TakeToken();
    }

    public HttpClient Client { get; }

    public void Dispose()
    {
        Client.Dispose();
        app.DisposeAsync().AsTask().GetAwaiter().GetResult();
        bridge.DisposeAsync().AsTask().GetAwaiter().GetResult();
        folder.Delete(recursive: true);
    }

    private WebApplication Start(ConsoleDesks desks, TimeProvider time)
    {
        var builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ApplicationName = "PupilBridge.Console" }
        );
        builder.WebHost.UseTestServer();
        var settings = new ConsoleSettings
        {
            DataFolder = folder.FullName,
            ProgramVersion = "0.0-fuzz",
            Port = 0,
        };
        ConsoleSetup.Add(builder.Services, settings, desks, time);
        var made = builder.Build();
        made.Use(SignIn);
        made.MapGet("/fuzz-token", (HttpContext c, IAntiforgery forms) => forms.GetAndStoreTokens(c).RequestToken)
            .AllowAnonymous();
        ConsoleSetup.Map(made);
        made.StartAsync().GetAwaiter().GetResult();
        return made;
    }

    private void TakeToken()
    {
        using var answer = Client.GetAsync("/fuzz-token").GetAwaiter().GetResult();
        var cookie = answer
            .Headers.GetValues("Set-Cookie")
            .Single(c => c.StartsWith("pupilbridge-form=", StringComparison.Ordinal));
        Client.DefaultRequestHeaders.Add("Cookie", cookie.Split(';')[0]);
        var token = answer.Content.ReadAsStringAsync().GetAwaiter().GetResult();
        Client.DefaultRequestHeaders.Add("X-PupilBridge-Form", token);
    }

    private static Task SignIn(HttpContext context, RequestDelegate next)
    {
        var roles = Enum.GetNames<ClinicRole>().Where(role => role != nameof(ClinicRole.None));
        Claim[] claims =
        [
            new Claim(ClaimTypes.Name, "MK"),
            .. roles.Select(role => new Claim(ClaimTypes.Role, role.ToLowerInvariant())),
        ];
        context.User = new ClaimsPrincipal(new ClaimsIdentity(claims, "fuzz"));
        return next(context);
    }
}
