using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Lines;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Projection.Resuming;
using PupilBridge.Worker.Sessions;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker;

/// <summary>
/// The running bridge: journal, lines, live exams and exam log, joined. Everything that people can do and see goes through
/// its parts. Open it, and stop it when done; one bridge at a time can have a data folder.
/// </summary>
/// <remarks>Safe for several threads.</remarks>
public sealed class Bridge : IAsyncDisposable
{
    private readonly OpenedJournal journal;
    private readonly PortWatch watch;
    private readonly LineSurroundings lines;
    private readonly CancellationTokenSource stopLines = new();
    private readonly CancellationTokenSource stopRest = new();
    private readonly List<Task> lineLoops = [];
    private readonly List<Task> restLoops = [];
    private readonly Lock gate = new();
    private Task<bool>? stopping;
    private int disposed;

    private Bridge(OpenedJournal journal, LineSurroundings lines, PortWatch watch)
    {
        this.journal = journal;
        this.lines = lines;
        this.watch = watch;
    }

    /// <summary>The number by which instruments know this installation.</summary>
    public HostId Host => lines.Host;

    /// <summary>The one way into the journal.</summary>
    public JournalKeeper Keeper => lines.Keeper;

    /// <summary>What is live: ports, instruments, and what follows.</summary>
    public LiveBoard Board => lines.Board;

    /// <summary>The exams as the journal has them up to its last durable entry.</summary>
    public ExamTracker Exams => journal.Tracker;

    /// <summary>The exam log: lists, look-ups, exams of long ago.</summary>
    public ExamLogKeeper ExamLog => journal.ExamLog;

    /// <summary>Notes where the exams stand.</summary>
    internal ResumeKeeper Points => journal.Points;

    /// <summary>The keys of what identifies patients; null where it is not sealed.</summary>
    public SubjectKeyStore? SubjectKeys => journal.SubjectKeys;

    /// <summary>
    /// Why exams and what people enter about them must wait, for a person; null when they need not. Lines are served meanwhile.
    /// </summary>
    public string? ExamsWaitFor =>
        journal.Follower.IsWaiting
            ? "The exams are being made anew from the journal and are not there yet; that takes a moment. Readings are recorded meanwhile."
            : null;

    /// <summary>How the bridge is.</summary>
    public BridgeHealth Health =>
        new()
        {
            JournalTrouble = Keeper.Trouble,
            Durable = Keeper.Durable.Sequence,
            Waiting = Keeper.Waiting,
            Applied = journal.Follower.Applied,
            InExamLog = ExamLog.LastApplied,
            ExamLogTrouble = ExamLog.Trouble,
            UnreadableEntries = journal.Entries.Unreadable,
            DroppedViewers = Board.Dropped,
            Ports = Board.Look().Ports,
        };

    /// <summary>
    /// Opens the journal, catches up, notes the start in the journal, and begins to serve the ports. What is wrong with the
    /// exam log does not stop it: that is mended while it runs.
    /// </summary>
    /// <param name="parts">What it is made of.</param>
    /// <exception cref="Microsoft.Extensions.Options.OptionsValidationException">Options are wrong; all faults are named.</exception>
    /// <exception cref="JournalException">The journal cannot be used: another service has it, or it is of a newer version.</exception>
    /// <exception cref="BridgeStartException">Something else is in the way.</exception>
    public static Bridge Open(BridgeParts parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var profile = BridgeStart.Check(parts.Options);
        var host = BridgeStart.PrepareFolder(parts.Options);
        var clock = new MomentClock(parts.Time);
        var board = new LiveBoard(parts.Options.ScreenBacklog);
        var claims = new InstrumentClaims();
        var journal = OpenedJournal.Open(parts, board, claims);
        var lines = new LineSurroundings(parts.Options, host, journal.Keeper, claims, board, clock, parts.Logger);
        var watch = new PortWatch(lines, BridgeStart.OpenersOf(parts), BridgeStart.FinderOf(parts));
        var bridge = new Bridge(journal, lines, watch);
        bridge.Begin(parts.ProgramVersion, profile);
        return bridge;
    }

    /// <summary>Reads one entry of the journal, beside the writer.</summary>
    /// <param name="sequence">Its place.</param>
    /// <returns>Null where no entry stands, or none is on disk yet.</returns>
    /// <exception cref="JournalException">A newer version of the program wrote it.</exception>
    /// <exception cref="IOException">A file of the journal cannot be read.</exception>
    public SequencedEntry? ReadEntry(JournalSequence sequence) => journal.ReadEntry(sequence);

    /// <summary>The journal's entries before a place, from the first.</summary>
    /// <param name="before">The place.</param>
    public IEnumerable<SequencedEntry> ReadEntriesBefore(JournalSequence before) => journal.ReadEntriesBefore(before);

    /// <summary>Asks an instrument to do something. The wish is on disk before it is sent, and its outcome afterwards.</summary>
    /// <param name="serial">The instrument.</param>
    /// <param name="command">What is asked.</param>
    /// <param name="who">Who asks; null for the service.</param>
    /// <returns>How it ended; it always ends.</returns>
    public Task<CommandEnding> CommandAsync(SerialNumber serial, InstrumentCommand command, PersonId? who)
    {
        if (lines.Claims.Find(serial) is not { } line)
        {
            const string reason = "The instrument is not connected.";
            return Task.FromResult(new CommandEnding(0, CommandOutcome.NoReply, reason));
        }

        return line.CommandAsync(Keeper.NextCommand(serial), command, who);
    }

    /// <summary>Asks an instrument to switch itself off, if it is connected and can. Wish and outcome are journalled.</summary>
    /// <param name="serial">The instrument.</param>
    /// <param name="who">Who wishes it; null for the service.</param>
    /// <param name="cancellation">Gives up waiting; what was sent is sent.</param>
    /// <returns>How it ended.</returns>
    public async Task<SwitchOffEnding> SwitchOffAsync(
        SerialNumber serial,
        PersonId? who,
        CancellationToken cancellation = default
    )
    {
        var live = Board.Look().Instruments.FirstOrDefault(instrument => instrument.Serial == serial);
        if (live is not { IsConnected: true })
            return SwitchOffEnding.NotConnected(serial);
        if (!live.Abilities.HasFlag(InstrumentAbilities.SwitchOff))
            return SwitchOffEnding.Cannot(serial);
        var ending = await CommandAsync(serial, InstrumentCommand.Off, who)
            .WaitAsync(cancellation)
            .ConfigureAwait(false);
        return SwitchOffEnding.Of(serial, ending);
    }

    /// <summary>Takes an instrument over that another host holds.</summary>
    /// <param name="port">The port it is on.</param>
    /// <returns>False if that port is not open here.</returns>
    public bool TakeOver(string port)
    {
        if (watch.Served.FirstOrDefault(served => served.Name == port)?.Line is not { } line)
            return false;
        line.TakeOver();
        return true;
    }

    /// <summary>
    /// Stops within 2 s: closes the ports, records what was taken, writes the exam log, marks the journal's stop as clean.
    /// </summary>
    /// <returns>Whether all of it was done; if not, the next start finds out what is missing and mends it.</returns>
    public Task<bool> StopAsync()
    {
        lock (gate)
            return stopping ??= Task.Run(StopOnceAsync);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await StopAsync().ConfigureAwait(false);
        if (Interlocked.Exchange(ref disposed, 1) != 0)
            return;
        journal.Dispose();
        stopLines.Dispose();
        stopRest.Dispose();
    }

    private void Begin(string programVersion, Profile profile)
    {
        var at = lines.Clock.Now.At;
        Keeper.Submit(
            new ServiceStarted
            {
                At = at,
                ProgramVersion = programVersion,
                Host = Host,
            }
        );
        Keeper.Submit(new ProfileInForce { At = at, Profile = profile });
        var silence = new SilenceWatch(Exams, Keeper, lines.Clock);
        restLoops.Add(Task.Run(() => journal.Follower.RunAsync(stopRest.Token)));
        lineLoops.Add(Task.Run(() => silence.RunAsync(stopLines.Token)));
        lineLoops.Add(Task.Run(() => watch.RunAsync(stopLines.Token)));
    }

    private async Task<bool> StopOnceAsync()
    {
        await stopLines.CancelAsync().ConfigureAwait(false);
        var clean = await Within(lineLoops, TimeSpan.FromSeconds(0.8)).ConfigureAwait(false);
        // The journal goes first: what was taken from a line is recorded before anything else costs time.
        clean &= journal.Thread.Stop(TimeSpan.FromSeconds(0.5));
        await journal.Follower.CaughtUpAsync(TimeSpan.FromSeconds(0.2)).ConfigureAwait(false);
        await stopRest.CancelAsync().ConfigureAwait(false);
        clean &= await Within(restLoops, TimeSpan.FromSeconds(0.1)).ConfigureAwait(false);
        clean &= await journal.CloseProjectionsAsync(TimeSpan.FromSeconds(0.4)).ConfigureAwait(false);
        return clean;
    }

    private async Task<bool> Within(List<Task> tasks, TimeSpan limit)
    {
        try
        {
            await Task.WhenAll(tasks).WaitAsync(limit).ConfigureAwait(false);
            return true;
        }
        catch (TimeoutException)
        {
            BridgeStart.StopsLate(lines.Logger, limit.TotalSeconds);
            return false;
        }
    }
}
