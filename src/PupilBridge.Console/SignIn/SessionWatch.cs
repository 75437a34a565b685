using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic.People;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Signs off whoever did nothing for long, or signed in long ago, also where no browser asks any more. A running exam goes on without them.
/// </summary>
internal sealed partial class SessionWatch(
    SessionBook book,
    IPeopleDesk people,
    TimeProvider time,
    ILogger<SessionWatch> log
) : BackgroundService
{
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromSeconds(2);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(BetweenLooks, time);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken).ConfigureAwait(false))
            {
                foreach (var (session, why) in book.Sweep())
                {
                    await TellAsync(session, why, stoppingToken).ConfigureAwait(false);
                }
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The console stops.
        }
    }

    private async Task TellAsync(Session session, SignOffReason why, CancellationToken stop)
    {
        try
        {
            await people.SignedOffAsync(session.Who, session.Place.Where, why, stop).ConfigureAwait(false);
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            Untold(log, session.Who, fault.Message);
        }
    }

    [LoggerMessage(
        EventId = 1,
        Level = LogLevel.Warning,
        Message = "{Who} was signed off, and that could not be recorded: {Reason}"
    )]
    private static partial void Untold(ILogger log, string who, string reason);
}
