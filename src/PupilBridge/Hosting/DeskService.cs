using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic;
using PupilBridge.Desk;
using PupilBridge.Worker;

namespace PupilBridge.Hosting;

/// <summary>The clinic's desk over the running bridge, and the local socket over that, as a service of the host.</summary>
/// <param name="service">The bridge; it is open before this starts.</param>
/// <param name="desks">The desks over it.</param>
/// <param name="parts">What it is made of.</param>
/// <param name="limits">What the socket takes at most.</param>
/// <param name="log">Where remarks go.</param>
internal sealed class DeskService(
    BridgeService service,
    HouseDesks desks,
    BridgeParts parts,
    DeskLimits limits,
    ILogger<DeskService> log
) : IHostedService
{
    private DeskListener<IBridgeDesk>? listener;

    /// <summary>The desk, once the service has started.</summary>
    public IClinicDesk Clinic => desks.Clinic;

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        var desk = new BridgeDesk(desks.ForCommands, service.Bridge, parts);
        listener = DeskListener<IBridgeDesk>.Start(new DeskPlace(parts.Options.DataFolder), desk, limits, log);
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public async Task StopAsync(CancellationToken cancellationToken)
    {
        if (listener is { } open)
        {
            await open.DisposeAsync().AsTask().WaitAsync(cancellationToken).ConfigureAwait(false);
        }
    }
}
