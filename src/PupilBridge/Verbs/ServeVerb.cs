using System.CommandLine;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Hosting;

namespace PupilBridge.Verbs;

/// <summary><c>serve</c>: the service, until it is stopped.</summary>
internal sealed class ServeVerb : Verb
{
    private readonly Option<string[]> ports = new("--port")
    {
        Description = "Listen on this port and no other; may stand several times. The same as --set Bridge:Ports=….",
        HelpName = "PORT",
    };

    private readonly Option<string[]> set = SetOption.Make();

    public ServeVerb()
        : base(
            "serve",
            "Listens to instruments and keeps their exams until it is stopped: in the foreground, under systemd, or as a "
                + "Windows service. A stop takes at most 2 s."
        )
    {
        Add(ports);
        Add(set);
        Example("pupilbridge serve", "listens on all serial ports, also those plugged in later");
        Example(
            "pupilbridge serve --port /dev/serial/by-id/usb-quay-1 --port tcp:10.0.0.7:4001",
            "listens on two ports"
        );
        EndsWith(ExitCode.InUse, ExitCode.Configuration, ExitCode.Storage);
        Does(ServeAsync);
    }

    private async Task<ExitCode> ServeAsync(Call call, CancellationToken stop)
    {
        var values = SetOption.Values(call.Get(set));
        if (call.Get(ports) is { Length: > 0 } named)
        {
            values["Bridge:Ports"] = string.Join(',', named);
        }

        var settings = Settings.Read(DataFolderChoice.For(call), values).OrFail();
        using var host = BridgeHost.Build(settings, call.Time, BridgeHost.LogToConsole);
        await host.StartAsync(stop).ConfigureAwait(false);
        var log = host.Services.GetRequiredService<ILoggerFactory>().CreateLogger("PupilBridge");
        var desk = host.Services.GetRequiredService<DeskService>().Clinic;
        await StartMessages.SayAsync(log, settings.Bridge, desk, stop).ConfigureAwait(false);
        if (settings.Web is not null)
        {
            StartMessages.SayFirstCode(log, host.Services.GetRequiredService<PeopleService>().People.FirstCode);
        }

        await host.WaitForShutdownAsync(stop).ConfigureAwait(false);
        call.Remark("PupilBridge has stopped.");
        return ExitCode.Done;
    }
}
