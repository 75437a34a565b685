using PupilBridge.Clinic;
using PupilBridge.Clinic.Audit;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Records;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Hosting;
using PupilBridge.Journal;
using StreamJsonRpc;

namespace PupilBridge.Desk;

/// <summary>
/// A command's way to the desk: over the local socket where a service answers for the data folder; otherwise the command
/// takes the folder's lock and is its own service for the moment, without any port.
/// </summary>
internal sealed class DeskAccess : IAsyncDisposable
{
    private const int MaxTries = 15;
    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(200);

    /// <summary>The exit codes that a command which goes this way can end with.</summary>
    public static ReadOnlySpan<ExitCode> Exits =>
        [ExitCode.NotFound, ExitCode.Refused, ExitCode.InUse, ExitCode.NoService, ExitCode.Storage];

    private readonly OfflineHouse? own;
    private readonly RecordDesk? records;
    private readonly AuditLog? audit;
    private readonly DeskConnection<IBridgeDesk>? connection;

    private DeskAccess(DeskConnection<IBridgeDesk> connection) =>
        (this.connection, Desk, Outgoing, Bench, Audit) = (
            connection,
            connection.Desk,
            connection.Desk,
            connection.Desk,
            connection.Desk.ListAuditAsync
        );

    private DeskAccess(OfflineHouse house, Call call, JournalFolder folder)
    {
        own = house;
        audit = new AuditLog(OfflineParts.AuditOf(call, folder) with { SubjectKeys = () => house.SubjectKeys });
        records = new RecordDesk(house, call.Time);
        var noted = new AuditedDesk(
            new ClinicDesk(house),
            lanes: null,
            records,
            new BenchDesk(house, call.Time),
            audit,
            AuditReader.OfCommand(),
            call.Time
        );
        Desk = new CommandDesk(noted);
        Outgoing = noted;
        Bench = noted;
        Audit = noted.ListAuditAsync;
    }

    /// <summary>The calls.</summary>
    public IClinicDesk Desk { get; }

    /// <summary>What may leave the house.</summary>
    public IOutgoingDesk Outgoing { get; }

    /// <summary>The service bench.</summary>
    public IBenchDesk Bench { get; }

    /// <summary>Who saw what.</summary>
    public Func<AuditSearch, CancellationToken, Task<AuditPage>> Audit { get; }

    /// <summary>Whether a running service answers; false where the command works on the files itself.</summary>
    public bool IsService => connection is not null;

    /// <summary>Opens the way to the desk of a command's data folder.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The access; dispose of it when done.</returns>
    /// <exception cref="CommandFailure">There is no data, or it cannot be used.</exception>
    public static async Task<DeskAccess> OpenAsync(Call call, CancellationToken cancellation)
    {
        var folder = DataFolderChoice.For(call);
        for (var tries = 1; ; tries++)
        {
            if (await ToServiceAsync(folder, cancellation).ConfigureAwait(false) is { } service)
            {
                return service;
            }

            try
            {
                var journal = JournalPlace.Existing(folder);
                var house = OfflineHouse.Open(
                    OfflineParts.For(call, journal),
                    OfflineParts.CriteriaOf(folder),
                    OfflineParts.BenchOf(folder)
                );
                return new DeskAccess(house, call, journal);
            }
            catch (JournalLockedException) when (tries < MaxTries)
            {
                // A service that starts or stops just now has the folder and no socket; so has another command, for a moment.
                await Task.Delay(BetweenTries, call.Time, cancellation).ConfigureAwait(false);
            }
        }
    }

    /// <summary>Opens the way to a running service and to nothing else.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The access; dispose of it when done.</returns>
    /// <exception cref="CommandFailure">No service answers.</exception>
    public static async Task<DeskAccess> ToServiceAsync(Call call, CancellationToken cancellation)
    {
        var folder = DataFolderChoice.For(call);
        return await ToServiceAsync(folder, cancellation).ConfigureAwait(false)
            ?? throw new CommandFailure(
                ExitCode.NoService,
                $"No service is running on {folder}.",
                "Start it with 'pupilbridge serve', or name another data folder with --data DIR."
            );
    }

    /// <summary>Opens the way to a running service, if there is one.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The connection; null if none answers.</returns>
    /// <exception cref="CommandFailure">Something answers and cannot be talked to.</exception>
    public static Task<DeskConnection<IBridgeDesk>?> TryConnectAsync(string folder, CancellationToken cancellation) =>
        DeskConnection<IBridgeDesk>.TryOpenAsync(new DeskPlace(folder), new DeskLimits(), cancellation);

    /// <summary>Makes a call and turns what may go wrong on the way into a message.</summary>
    /// <typeparam name="T">What the call gives.</typeparam>
    /// <param name="ask">The call.</param>
    /// <returns>Its result.</returns>
    /// <exception cref="CommandFailure">The desk cannot do it, or the connection broke.</exception>
    public Task<T> AskAsync<T>(Func<IClinicDesk, Task<T>> ask) => AskAsync(() => ask(Desk));

    /// <summary>Reads exams page by page and turns what may go wrong on the way into a message.</summary>
    /// <typeparam name="T">What the reading gives.</typeparam>
    /// <param name="read">The reading.</param>
    /// <returns>Its result.</returns>
    /// <exception cref="CommandFailure">The desk cannot do it, or the connection broke.</exception>
    public Task<T> ReadPagesAsync<T>(Func<IOutgoingPages, Task<T>> read) => AskAsync(() => read(Outgoing));

    /// <summary>Makes a call for what may leave the house and turns what may go wrong on the way into a message.</summary>
    /// <typeparam name="T">What the call gives.</typeparam>
    /// <param name="ask">The call.</param>
    /// <returns>Its result.</returns>
    /// <exception cref="CommandFailure">The desk cannot do it, or the connection broke.</exception>
    public Task<T> AskOutgoingAsync<T>(Func<IOutgoingDesk, Task<T>> ask) => AskAsync(() => ask(Outgoing));

    /// <summary>Makes a call for the service bench and turns what may go wrong on the way into a message.</summary>
    /// <typeparam name="T">What the call gives.</typeparam>
    /// <param name="ask">The call.</param>
    /// <returns>Its result.</returns>
    /// <exception cref="CommandFailure">The desk cannot do it, or the connection broke.</exception>
    public Task<T> AskBenchAsync<T>(Func<IBenchDesk, Task<T>> ask) => AskAsync(() => ask(Bench));

    /// <summary>Asks who saw what and turns what may go wrong on the way into a message.</summary>
    /// <param name="search">Which notes.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="CommandFailure">The desk cannot do it, or the connection broke.</exception>
    public Task<AuditPage> AskAuditAsync(AuditSearch search, CancellationToken cancellation) =>
        AskAsync(() => Audit(search, cancellation));

    private static async Task<T> AskAsync<T>(Func<Task<T>> ask)
    {
        try
        {
            return await ask().ConfigureAwait(false);
        }
        catch (RemoteInvocationException fault)
        {
            throw new CommandFailure(ExitCode.Refused, fault.Message);
        }
        catch (EntryProblemException problem)
        {
            throw new CommandFailure(ExitCode.Refused, problem.Message);
        }
        catch (ConnectionLostException)
        {
            throw Broken();
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        connection?.Dispose();
        records?.Dispose();
        audit?.Dispose();
        if (own is not null)
        {
            await own.DisposeAsync().ConfigureAwait(false);
        }
    }

    internal static CommandFailure Broken() =>
        new(
            ExitCode.NoService,
            "The running service ended while the command waited for it.",
            "Run the command again: what was recorded already is not recorded twice."
        );

    private static async Task<DeskAccess?> ToServiceAsync(string folder, CancellationToken cancellation)
    {
        var connection = await TryConnectAsync(folder, cancellation).ConfigureAwait(false);
        return connection is null ? null : new DeskAccess(connection);
    }
}
