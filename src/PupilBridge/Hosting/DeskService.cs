using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic;
using PupilBridge.Desk;

namespace PupilBridge.Hosting;

/// <summary>The local socket as a service of the host: there as long as the desk behind it is.</summary>
/// <param name="place">Where it listens.</param>
/// <param name="desk">What commands can call.</param>
/// <param name="limits">What it takes at most.</param>
/// <param name="log">Where remarks go.</param>
internal sealed class DeskService(DeskPlace place, IClinicDesk desk, DeskLimits limits, ILogger<DeskService> log)
    : IHostedService
{
    private DeskListener<IClinicDesk>? listener;

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        listener = DeskListener<IClinicDesk>.Start(place, desk, limits, log);
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
