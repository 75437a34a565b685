using System.Security.Cryptography;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.People;
using PupilBridge.Worker;

namespace PupilBridge.Hosting;

/// <summary>
/// The people of the data folder over the running bridge, as a service of the host. It also journals what commands change beside it.
/// </summary>
/// <param name="service">The bridge; it is open before this starts.</param>
/// <param name="parts">What it is made of.</param>
/// <param name="lockout">When wrong passwords lock a name.</param>
/// <param name="audit">Where sign-ins and changes are noted beside what was seen.</param>
/// <param name="log">Where remarks go.</param>
internal sealed partial class PeopleService(
    BridgeService service,
    BridgeParts parts,
    LockoutRule lockout,
    AuditLog audit,
    ILogger<PeopleService> log
) : IHostedService, IDisposable
{
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromSeconds(2);

    private readonly RandomNumberGenerator random = RandomNumberGenerator.Create();
    private readonly CancellationTokenSource stop = new();
    private PeopleDesk? people;
    private Task looking = Task.CompletedTask;

    /// <summary>The people, once the service has started.</summary>
    public PeopleDesk People => people ?? throw new InvalidOperationException("The service has not started yet.");

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        people = new PeopleDesk(
            new PeopleParts
            {
                DataFolder = parts.Options.DataFolder,
                Time = parts.Time,
                Random = random,
                Journal = new AuditedPeopleJournal(
                    new HousePeopleJournal(new BridgeHouse(service.Bridge, isLive: true), parts.ProgramVersion),
                    audit
                ),
                Lockout = lockout,
                Remark = remark => Remark(log, remark),
            }
        );
        looking = LookAsync(people);
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public async Task StopAsync(CancellationToken cancellationToken)
    {
        await stop.CancelAsync().ConfigureAwait(false);
        await looking.WaitAsync(cancellationToken).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        people?.Dispose();
        random.Dispose();
        stop.Dispose();
    }

    private async Task LookAsync(PeopleDesk desk)
    {
        string? said = null;
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await desk.CatchUpAsync(stop.Token).ConfigureAwait(false);
                said = null;
            }
            catch (Exception fault) when (!stop.IsCancellationRequested)
            {
                // It stays in the file and is tried again: the disk may be full, or the journal stopped.
                if (said != fault.Message)
                {
                    Remark(log, said = fault.Message);
                }
            }
            catch (OperationCanceledException)
            {
                return;
            }

            await Task.Delay(BetweenLooks, parts.Time, stop.Token)
                .ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    [LoggerMessage(EventId = 30, Level = LogLevel.Warning, Message = "{Words}")]
    private static partial void Remark(ILogger log, string words);
}
