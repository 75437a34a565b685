using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Ports;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Sessions;
using CommandOutcome = PupilBridge.Exams.Entries.CommandOutcome;

namespace PupilBridge.Worker.Lines;

/// <summary>
/// One opening of one port with its session. Bytes come on the port's thread, time on a timer's, news of the disk on the
/// journal's: each takes one lock for the few microseconds of a step, which is cheaper than handing it to another thread,
/// and what the step wants sent goes out at once, on the thread that took the step.
/// </summary>
internal sealed partial class PortLine : ISessionSurroundings, IDisposable
{
    private readonly Lock gate = new();
    private readonly LineSurroundings around;
    private readonly EntrySource source;
    private readonly IPort port;
    private readonly OutgoingLine outgoing;
    private readonly InstrumentSession session;
    private readonly ConcurrentDictionary<uint, TaskCompletionSource<CommandEnding>> commands = [];
    private readonly DueTimer timer;
    private TimeSpan? liveSince;
    private int closing;

    /// <summary>Makes the line of a port that was just opened.</summary>
    public PortLine(IPort port, EntrySource source, LineSurroundings around)
    {
        this.port = port;
        this.source = source;
        this.around = around;
        timer = new DueTimer(around.Clock, OnTick);
        outgoing = new OutgoingLine(port, around.Options.WriteLimit, OnWriteFailed);
        session = new InstrumentSession(
            new SessionSettings(around.Host, port.Name, around.Options.Baud, 2 * around.Options.WaitingPerSource),
            this
        );
    }

    /// <summary>The port's name.</summary>
    public string Name => port.Name;

    /// <summary>What ended the line, once something did.</summary>
    public (PortPhase Phase, string Message)? Ending { get; private set; }

    /// <summary>How long events flowed; null if they never did.</summary>
    public TimeSpan? LivedFor => liveSince is { } since ? around.Clock.Now.Monotonic - since : null;

    /// <summary>What was counted.</summary>
    public HostLinkCounters Counters
    {
        get
        {
            lock (gate)
                return session.Counters;
        }
    }

    public void OnOpened() => Step(static (session, _, now) => session.OnOpened(now), 0);

    public void OnBytes(ReadOnlySpan<byte> bytes)
    {
        lock (gate)
        {
            try
            {
                session.OnBytes(bytes, around.Clock.Now);
            }
            catch (Exception e)
            {
                Fail(e.Message);
            }

            timer.Arm(session.NextDue);
        }

        outgoing.Flush();
        CloseIfEnded();
    }

    private void OnTick() => Step(static (session, _, now) => session.OnTimePassed(now), 0);

    public void OnRecorded(JournalEntry entry) =>
        Step(static (session, entry, now) => session.OnRecorded(entry, now), entry);

    public void OnCaughtUp() => Step(static (session, _, now) => session.OnCaughtUp(now), 0);

    public void TakeOver() => Step(static (session, _, now) => session.OnTakeOverWished(now), 0);

    /// <summary>Sends a command once its wish is on disk.</summary>
    /// <returns>How it ended; it always ends.</returns>
    public Task<CommandEnding> CommandAsync(uint number, InstrumentCommand command, PersonId? who)
    {
        var waiter = new TaskCompletionSource<CommandEnding>(TaskCreationOptions.RunContinuationsAsynchronously);
        commands[number] = waiter;
        Step((session, _, now) => session.OnCommandWished(number, command, who, now), 0);
        if (Ending is { } ending)
            ((ISessionSurroundings)this).CommandEnded(number, CommandOutcome.NoReply, ending.Message);
        return waiter.Task;
    }

    /// <summary>The port is closed: the last step. Afterwards the instrument is free for another line.</summary>
    public void OnClosed(string reason)
    {
        Step(static (session, reason, now) => session.OnClosed(reason, now), reason);
        foreach (var number in commands.Keys)
            ((ISessionSurroundings)this).CommandEnded(number, CommandOutcome.NoReply, reason);
        around.Claims.Release(this);
    }

    /// <summary>Ends the line because something went wrong in it; the port is closed and the line begins anew.</summary>
    private void Fail(string message) => Ending ??= (PortPhase.BackingOff, message);

    private void OnWriteFailed(Exception failure)
    {
        Fail(failure.Message);
        CloseIfEnded();
    }

    /// <summary>
    /// Closes the port of a line that has come to its end: elsewhere, since closing may take some milliseconds, and this may be
    /// the journal's thread, or the port's own.
    /// </summary>
    private void CloseIfEnded()
    {
        if (Ending is not null && Interlocked.Exchange(ref closing, 1) == 0)
            ThreadPool.QueueUserWorkItem(static port => port.Close(), port, preferLocal: false);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (gate)
            timer.Dispose();
    }

    int ISessionSurroundings.Waiting => source.Waiting;

    void ISessionSurroundings.Send(ReadOnlySpan<byte> line) => outgoing.Put(line);

    void ISessionSurroundings.Submit(JournalEntry entry) => around.Keeper.Submit(entry, source);

    EventPosition? ISessionSurroundings.Find(SerialNumber serial, BootNumber boot) => around.Keeper.Find(serial, boot);

    IReadOnlyList<OpenBoot> ISessionSurroundings.OpenBoots(SerialNumber serial, BootNumber present) =>
        around.Keeper.OpenBoots(serial, present);

    string? ISessionSurroundings.Claim(SerialNumber serial) => around.Claims.Claim(serial, this)?.Name;

    TickTimes ISessionSurroundings.Ticks(SerialNumber serial) => around.Claims.Ticks(serial);

    void ISessionSurroundings.Show(LiveInstrument instrument) => around.Board.Set(instrument);

    void ISessionSurroundings.Show(PortPhase phase, string message)
    {
        if (phase == PortPhase.Live)
        {
            if (liveSince is null)
                IsLive(around.Logger, Name, session.Serial?.Value ?? "?");
            liveSince ??= around.Clock.Now.Monotonic;
        }

        around.Board.Set(
            new PortStatus
            {
                Port = Name,
                Phase = phase,
                Message = message,
                Since = around.Clock.Now.Utc,
                Serial = session.Serial,
            }
        );
    }

    void ISessionSurroundings.CommandEnded(uint number, CommandOutcome outcome, string reason)
    {
        if (commands.TryRemove(number, out var waiter))
            waiter.TrySetResult(new CommandEnding(number, outcome, reason));
    }

    void ISessionSurroundings.EndLine(PortPhase phase, string message) => Ending ??= (phase, message);

    private void Step<T>(Action<InstrumentSession, T, Moment> step, T value)
    {
        lock (gate)
        {
            try
            {
                step(session, value, around.Clock.Now);
            }
            catch (Exception e)
            {
                // Whatever is wrong with one line, the others and the journal's thread go on.
                Fail(e.Message);
            }

            timer.Arm(session.NextDue);
        }

        outgoing.Flush();
        CloseIfEnded();
    }

    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "{Port}: instrument {Serial} is live; what it tells is recorded."
    )]
    private static partial void IsLive(ILogger logger, string port, string serial);
}
