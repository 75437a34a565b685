using Microsoft.Extensions.Logging;
using PupilBridge.Clinic;
using PupilBridge.Worker.Options;

namespace PupilBridge.Hosting;

/// <summary>What the service says once it runs: where the data lies, which ports it listens on, which instruments it knows.</summary>
internal static partial class StartMessages
{
    /// <summary>Says it.</summary>
    /// <param name="log">Where to.</param>
    /// <param name="options">What is set.</param>
    /// <param name="desk">The desk, asked for the instruments.</param>
    /// <param name="cancel">Gives up.</param>
    public static async Task SayAsync(ILogger log, BridgeOptions options, IClinicDesk desk, CancellationToken cancel)
    {
        Running(log, Environment.ProcessId, options.DataFolder);
        Ports(log, Words(options));
        var known = await desk.ListInstrumentsAsync(cancel).ConfigureAwait(false);
        if (known.Instruments.Count > 0)
        {
            Instruments(log, string.Join(", ", known.Instruments.Select(i => $"{i.Model} {i.Instrument}".Trim())));
        }

        if (known.Trouble is { } trouble)
        {
            Trouble(log, trouble);
        }
    }

    /// <summary>Says how the first administrator is made; only whoever can read the service's messages learns the code.</summary>
    /// <param name="log">Where to.</param>
    /// <param name="code">The one-time code; null once there are people.</param>
    public static void SayFirstCode(ILogger log, string? code)
    {
        if (code is not null)
        {
            FirstCode(log, code);
        }
    }

    private static string Words(BridgeOptions options) =>
        options.Ports.Count == 0 || options.Ports is [BridgeSettings.Automatic]
            ? "all serial ports that are found, also those plugged in later"
            : string.Join(", ", options.Ports);

    [LoggerMessage(
        EventId = 1,
        Level = LogLevel.Information,
        Message = "PupilBridge runs (process {Process}). Data folder: {Folder}"
    )]
    private static partial void Running(ILogger log, int process, string folder);

    [LoggerMessage(EventId = 2, Level = LogLevel.Information, Message = "Listening on {Ports}.")]
    private static partial void Ports(ILogger log, string ports);

    [LoggerMessage(EventId = 3, Level = LogLevel.Information, Message = "Instruments met before: {Instruments}.")]
    private static partial void Instruments(ILogger log, string instruments);

    [LoggerMessage(
        EventId = 5,
        Level = LogLevel.Warning,
        Message = "Nobody can sign in yet. Open the console and make the administrator with this code, which works once: {Code}"
    )]
    private static partial void FirstCode(ILogger log, string code);

    [LoggerMessage(EventId = 4, Level = LogLevel.Warning, Message = "{Trouble}")]
    private static partial void Trouble(ILogger log, string trouble);
}
