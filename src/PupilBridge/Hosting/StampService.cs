using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Safekeeping.Stamps;
using PupilBridge.Worker;

namespace PupilBridge.Hosting;

/// <summary>Whom to ask for time stamps.</summary>
/// <param name="Address">The authority.</param>
internal sealed record StampWish(Uri Address);

/// <summary>
/// Has the journal's head stamped once a day; only there where the settings name an authority. One that does not answer is asked again after
/// an hour; nothing waits for it.
/// </summary>
/// <param name="wish">Whom to ask.</param>
/// <param name="service">The bridge; it is open before this starts.</param>
/// <param name="parts">What the bridge is made of.</param>
/// <param name="time">The clock.</param>
/// <param name="log">Where remarks go.</param>
internal sealed partial class StampService(
    StampWish wish,
    BridgeService service,
    BridgeParts parts,
    TimeProvider time,
    ILogger<StampService> log
) : BackgroundService
{
    private static readonly TimeSpan Day = TimeSpan.FromDays(1);
    private static readonly TimeSpan AfterFailure = TimeSpan.FromHours(1);

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var http = new HttpClient { Timeout = TimeSpan.FromSeconds(30) };
        var authority = new StampAuthority(http, wish.Address);
        var stamps = new StampFolder(parts.Options.DataFolder);
        await Task.Delay(UntilDue(stamps), time, stoppingToken).ConfigureAwait(false);
        while (true)
        {
            var isStamped = await TryAsync(authority, stamps, stoppingToken).ConfigureAwait(false);
            await Task.Delay(isStamped ? Day : AfterFailure, time, stoppingToken).ConfigureAwait(false);
        }
    }

    private TimeSpan UntilDue(StampFolder stamps)
    {
        if (stamps.Tokens is not [.., var last])
        {
            return TimeSpan.Zero;
        }

        var wait = Day - (time.GetUtcNow() - File.GetLastWriteTimeUtc(last));
        return TimeSpan.FromTicks(Math.Clamp(wait.Ticks, 0, Day.Ticks));
    }

    private async Task<bool> TryAsync(StampAuthority authority, StampFolder stamps, CancellationToken stop)
    {
        var head = service.Bridge.Keeper.Durable;
        try
        {
            stamps.Keep(head, await authority.StampAsync(head, stop).ConfigureAwait(false));
            LogStamped(log, head.Sequence);
            return true;
        }
        catch (Exception fault) when (fault is StampException or IOException or UnauthorizedAccessException)
        {
            LogFailed(log, fault.Message);
            return false;
        }
    }

    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "The journal's head at sequence {Sequence} has its time stamp."
    )]
    private static partial void LogStamped(ILogger log, long sequence);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "No time stamp for the journal's head: {Reason} It is tried again in an hour; nothing else is concerned."
    )]
    private static partial void LogFailed(ILogger log, string reason);
}
