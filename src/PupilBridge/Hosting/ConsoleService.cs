using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.SignIn;

namespace PupilBridge.Hosting;

/// <summary>
/// The console as a service of the host. It starts beside everything else and keeps trying where it cannot, since readings must
/// neither wait for it nor end with it.
/// </summary>
/// <param name="settings">How it is served.</param>
/// <param name="desks">Makes what it goes through; asked once the bridge is open.</param>
/// <param name="time">The clock.</param>
/// <param name="logs">Where messages go.</param>
internal sealed partial class ConsoleService(
    ConsoleSettings settings,
    Func<ConsoleDesks> desks,
    TimeProvider time,
    ILoggerFactory logs
) : IHostedService, IDisposable
{
    private static readonly TimeSpan Retry = TimeSpan.FromSeconds(5);

    private readonly ILogger log = logs.CreateLogger("PupilBridge.Console");
    private readonly CancellationTokenSource stop = new();
    private Task<ConsoleServer?>? serving;

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        serving = Task.Run(ServeAsync, CancellationToken.None);
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public async Task StopAsync(CancellationToken cancellationToken)
    {
        await stop.CancelAsync().ConfigureAwait(false);
        if (serving is { } started && await started.WaitAsync(cancellationToken).ConfigureAwait(false) is { } server)
        {
            await server.DisposeAsync().AsTask().WaitAsync(cancellationToken).ConfigureAwait(false);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => stop.Dispose();

    private async Task<ConsoleServer?> ServeAsync()
    {
        if (ListeningRule.Obstacle(settings) is { } obstacle)
        {
            // Trying again changes nothing about the settings.
            NotServed(log, obstacle);
            return null;
        }

        var parts = desks();
        string? said = null;
        while (!stop.IsCancellationRequested)
        {
            try
            {
                var server = await ConsoleServer
                    .StartAsync(settings, parts, time, logs, stop.Token)
                    .ConfigureAwait(false);
                Serving(log, server.Address);
                return server;
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                break;
            }
            catch (Exception fault)
            {
                if (said != fault.Message)
                {
                    CannotServe(log, settings.Address, settings.Port, said = fault.Message);
                }

                await Task.Delay(Retry, time, stop.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }

        return null;
    }

    [LoggerMessage(EventId = 20, Level = LogLevel.Information, Message = "The console is at {Address}")]
    private static partial void Serving(ILogger log, Uri address);

    [LoggerMessage(
        EventId = 21,
        Level = LogLevel.Error,
        Message = "The console cannot be served on {Address}, port {Port}: {Reason} Readings go on. Free that port, or name another with Web:Port; it is tried again every few seconds."
    )]
    private static partial void CannotServe(ILogger log, string address, int port, string reason);

    [LoggerMessage(EventId = 22, Level = LogLevel.Error, Message = "{Reason} Readings go on.")]
    private static partial void NotServed(ILogger log, string reason);
}
