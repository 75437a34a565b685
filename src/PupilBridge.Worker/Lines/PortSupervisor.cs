using Microsoft.Extensions.Logging;
using Polly;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Ports;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Lines;

/// <summary>
/// Keeps one port served for as long as the service runs: opens it, reads it, and when it is lost opens it anew, with
/// waits that grow until a line has been good for a while.
/// </summary>
/// <remarks>
/// One read loop per port, which is never cancelled, since a read that is given up loses bytes: closing the port ends it.
/// Time-outs stand beside the loop, on a timer of the service's clock.
/// </remarks>
internal sealed partial class PortSupervisor
{
    /// <summary>A line that was good for this long is lost as a new event; one that dies sooner counts as a failed try.</summary>
    internal static readonly TimeSpan GoodAfter = TimeSpan.FromSeconds(5);

    /// <summary>The longest wait where a port opens and says nothing: an instrument may be switched on at any moment.</summary>
    internal static readonly TimeSpan SilentCap = TimeSpan.FromSeconds(2);

    private readonly IPortOpener opener;
    private readonly LineSurroundings around;
    private readonly EntrySource source;
    private readonly ReadLoop reading;
    private readonly ResiliencePipeline pipeline;
    private volatile CancellationTokenSource? waiting;
    private volatile PortLine? line;
    private string lastRefusal = "";

    /// <summary>Makes a supervisor; nothing is opened yet.</summary>
    /// <param name="opener">Opens the port.</param>
    /// <param name="around">What all lines share.</param>
    /// <param name="chance">Numbers from 0 to 1 for the waits, from a seeded generator.</param>
    public PortSupervisor(IPortOpener opener, LineSurroundings around, Func<double> chance)
    {
        this.opener = opener;
        this.around = around;
        source = around.Keeper.OpenSource(opener.Name);
        reading = new ReadLoop(source, around);
        var timing = new ReconnectTiming(around.Options.ReconnectFirst, around.Options.ReconnectCap);
        pipeline = ReconnectPipeline.Build(timing, around.Clock.Time, chance, OnWait);
        Show(PortPhase.Opening, "");
    }

    /// <summary>The port's name.</summary>
    public string Name => opener.Name;

    /// <summary>The line that is open now; null for none.</summary>
    public PortLine? Line => line;

    /// <summary>What was said of the port last.</summary>
    public PortPhase Phase { get; private set; }

    /// <summary>How many lines were opened.</summary>
    public long Opened { get; private set; }

    /// <summary>Tries the port now if it is being waited for, because something says that it may work now.</summary>
    public void Wake()
    {
        try
        {
            waiting?.Cancel();
        }
        catch (ObjectDisposedException)
        {
            // It has just stopped waiting by itself.
        }
    }

    /// <summary>Serves the port until stopped. Never throws.</summary>
    /// <param name="stop">Stops.</param>
    public async Task RunAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            using var wait = CancellationTokenSource.CreateLinkedTokenSource(stop);
            waiting = wait;
            try
            {
                await pipeline.ExecuteAsync(_ => ServeOnceAsync(stop), wait.Token).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                // Woken, or stopped.
            }
        }

        waiting = null;
        Show(PortPhase.Stopped, "");
    }

    /// <summary>One opening, from the call to the operating system to the last byte.</summary>
    /// <returns>Done when the line ended after it had been good for a while.</returns>
    /// <exception cref="PortOpenException">It could not be opened.</exception>
    /// <exception cref="LineLostException">It was opened, and did not last.</exception>
    private async ValueTask ServeOnceAsync(CancellationToken stop)
    {
        Show(PortPhase.Opening, "");
        var port = await OpenAsync(stop).ConfigureAwait(false);
        Opened++;
        using var current = new PortLine(port, source, around);
        var message = "The service stops.";
        try
        {
            using var closing = stop.Register(port.Close);
            line = current;
            current.OnOpened();
            message = await reading.RunAsync(port, current).ConfigureAwait(false);
        }
        finally
        {
            line = null;
            current.OnClosed(message);
            await port.DisposeAsync().ConfigureAwait(false);
        }

        stop.ThrowIfCancellationRequested();
        LineEnded(around.Logger, Name, message);
        if (current.Ending?.Phase == PortPhase.WrongInstrument)
            RecordRefusal(message);
        if (!(current.LivedFor >= GoodAfter))
            throw new LineLostException(current.Ending?.Phase ?? PortPhase.BackingOff, message);
    }

    /// <summary>
    /// Journals that an instrument was refused, once and not with each try. The entry names no instrument: the number that
    /// was claimed belongs to another one, whose line is as it was.
    /// </summary>
    private void RecordRefusal(string message)
    {
        if (message == lastRefusal)
            return;
        lastRefusal = message;
        try
        {
            around.Keeper.Submit(
                new LineChanged
                {
                    At = around.Clock.Now.At,
                    Serial = null,
                    PortName = Name,
                    State = LineState.Lost,
                    Reason = message,
                },
                source
            );
        }
        catch (Exception e) when (e is JournalException or SourceFullException)
        {
            // It is said on the screen and in the service's log; the journal holds nothing of that instrument anyway.
            LineEnded(around.Logger, Name, e.Message);
        }
    }

    private async Task<IPort> OpenAsync(CancellationToken stop)
    {
        var opening = opener.OpenAsync().AsTask();
        try
        {
            return await opening.WaitAsync(stop).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Opening cannot be called off; a port that opens after all is put away.
            _ = opening.ContinueWith(late => late.Result.Close(), TaskContinuationOptions.OnlyOnRanToCompletion);
            throw;
        }
    }

    private void OnWait(Exception failure, TimeSpan wait)
    {
        var phase = failure switch
        {
            PortOpenException open => PhaseOf(open.Fault),
            LineLostException lost => lost.Phase,
            _ => PortPhase.BackingOff,
        };
        Show(phase, failure.Message, around.Clock.Now.Utc + wait);
        Waits(around.Logger, Name, failure.Message, wait.TotalSeconds);
    }

    private void Show(PortPhase phase, string message, DateTimeOffset? nextTry = null)
    {
        Phase = phase;
        around.Board.Set(
            new PortStatus
            {
                Port = Name,
                Phase = phase,
                Message = message,
                Since = around.Clock.Now.Utc,
                NextTryAt = nextTry,
            }
        );
    }

    private static PortPhase PhaseOf(PortOpenFault fault) =>
        fault switch
        {
            PortOpenFault.Missing or PortOpenFault.NoDevice => PortPhase.Absent,
            PortOpenFault.Forbidden => PortPhase.Forbidden,
            PortOpenFault.Busy => PortPhase.Busy,
            PortOpenFault.NotATerminal or PortOpenFault.IsDirectory => PortPhase.Unsuitable,
            _ => PortPhase.BackingOff,
        };

    [LoggerMessage(Level = LogLevel.Information, Message = "{Port}: the line ended. {Message}")]
    private static partial void LineEnded(ILogger logger, string port, string message);

    [LoggerMessage(Level = LogLevel.Information, Message = "{Port}: {Message} Next try in {Seconds:0.0} s.")]
    private static partial void Waits(ILogger logger, string port, string message, double seconds);
}
