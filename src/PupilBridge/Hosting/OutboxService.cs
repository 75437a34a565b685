using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic.Outbox;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Sending;
using PupilBridge.Worker;

namespace PupilBridge.Hosting;

/// <summary>The sending of signed records, as a service of the host; only there where an administrator set a destination.</summary>
/// <param name="settings">To whom, and how.</param>
/// <param name="fhir">How records are made into messages.</param>
/// <param name="service">The bridge; it is open before this starts.</param>
/// <param name="desks">The desks over it.</param>
/// <param name="news">Where it tells how it goes.</param>
/// <param name="time">The clock.</param>
/// <param name="log">Where remarks go.</param>
internal sealed class OutboxService(
    SendingSettings settings,
    FhirSettings fhir,
    BridgeService service,
    HouseDesks desks,
    SendingNews news,
    TimeProvider time,
    ILogger<OutboxSender> log
) : BackgroundService
{
    /// <inheritdoc/>
    protected override Task ExecuteAsync(CancellationToken stoppingToken) =>
        Task.Run(() => SendAsync(stoppingToken), stoppingToken);

    private async Task SendAsync(CancellationToken stop)
    {
        // Waits are drawn from a generator of the installation's own, so that two installations do not come in step.
        var chance = new Random(unchecked((int)service.Bridge.Host.Value));
        using var sender = new OutboxSender(
            desks.Outbox,
            new FhirPayloads(fhir),
            settings,
            news,
            time,
            chance.NextDouble,
            log
        );
        await sender.RunAsync(stop).ConfigureAwait(false);
    }
}
