using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic.DayLists;

namespace PupilBridge.Hosting;

/// <summary>The watch over the folder of day's lists, as a service of the host.</summary>
/// <param name="options">What is watched.</param>
/// <param name="desks">The desks; the bridge is open before this starts.</param>
/// <param name="time">The clock.</param>
/// <param name="log">Where remarks go.</param>
internal sealed class DayListService(
    DayListWatchOptions options,
    HouseDesks desks,
    TimeProvider time,
    ILogger<DayListWatch> log
) : BackgroundService
{
    /// <inheritdoc/>
    protected override Task ExecuteAsync(CancellationToken stoppingToken) =>
        Task.Run(() => new DayListWatch(desks.Records, options, time, log).RunAsync(stoppingToken), stoppingToken);
}
