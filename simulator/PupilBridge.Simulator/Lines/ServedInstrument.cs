using System.Threading.Channels;
using PupilBridge.Instrument.Links;
using PupilBridge.Ports;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Simulator.Lines;

/// <summary>Takes down what a simulated examiner says; the program that records exams brings its own.</summary>
public interface IExaminerVoice
{
    /// <summary>Takes down one judgement.</summary>
    /// <param name="judgement">What was said.</param>
    /// <param name="cancel">Ends the exam early.</param>
    /// <returns>Done when it is taken down; the exam goes on then.</returns>
    ValueTask SayAsync(SpokenJudgement judgement, CancellationToken cancel);
}

/// <summary>
/// Serves one instrument over a port that hosts can open: pseudo-terminal, TCP or memory. The line goes by the clock; hands,
/// eyes and ticks may go faster than life. Members may be called from any thread.
/// </summary>
public sealed partial class ServedInstrument : IFaultStage, IAsyncDisposable
{
    /// <summary>How often the instrument is looked after; a fraction of what a host notices.</summary>
    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(4);

    private static readonly TimeSpan WriteLimit = TimeSpan.FromSeconds(1);

    private readonly IInstrumentSide side;
    private readonly FaultSet faults;
    private readonly TimeProvider time;
    private readonly double pace;
    private readonly long start;
    private readonly Lock gate = new();
    private readonly SemaphoreSlim received = new(0, 1);
    private readonly Channel<SpokenJudgement> spoken = Channel.CreateUnbounded<SpokenJudgement>();
    private SimulatedExam? exam;
    private SpokenJudgement? announced;
    private TimeSpan reached;

    /// <summary>Puts an instrument at the end of a line; <see cref="RunAsync"/> makes it live.</summary>
    /// <param name="instrument">The instrument, which nobody else drives from now on.</param>
    /// <param name="side">The line's end; stays the caller's to dispose.</param>
    /// <param name="time">The clock.</param>
    /// <param name="faults">What goes wrong; null for nothing.</param>
    /// <param name="pace">How many times faster than life hands, eyes and ticks go; above 0.</param>
    public ServedInstrument(
        SimulatedInstrument instrument,
        IInstrumentSide side,
        TimeProvider time,
        FaultSet? faults = null,
        double pace = 1
    )
    {
        ArgumentNullException.ThrowIfNull(instrument);
        ArgumentNullException.ThrowIfNull(side);
        ArgumentNullException.ThrowIfNull(time);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(pace);
        Instrument = instrument;
        this.side = side;
        this.time = time;
        this.faults = faults ?? FaultSet.None;
        this.pace = pace;
        start = time.GetTimestamp();
    }

    /// <summary>
    /// Whether hands, eyes and ticks stand still until the first exam begins, so that an exam's ticks do not depend on how
    /// long a host took to come. The line lives meanwhile. The default is false.
    /// </summary>
    public bool WaitsForExam { get; init; }

    /// <summary>The instrument; only to be used within <see cref="With"/> while it runs.</summary>
    public SimulatedInstrument Instrument { get; }

    /// <inheritdoc/>
    public bool IsPlugged => side.IsPlugged;

    private TimeSpan Now => time.GetElapsedTime(start);

    /// <summary>Does something to the instrument, or looks at it, while nothing else does.</summary>
    /// <typeparam name="T">What is found.</typeparam>
    /// <param name="what">What to do; short.</param>
    /// <returns>What it returned.</returns>
    public T With<T>(Func<SimulatedInstrument, T> what)
    {
        ArgumentNullException.ThrowIfNull(what);
        lock (gate)
        {
            return what(Instrument);
        }
    }

    /// <inheritdoc/>
    public void Unplug()
    {
        lock (gate)
        {
            Instrument.LineLost();
            side.Unplug();
        }
    }

    /// <inheritdoc/>
    public void Replug()
    {
        lock (gate)
        {
            side.Replug();
            Instrument.LineBack();
        }
    }

    /// <summary>From now on nothing goes wrong; what went wrong is mended.</summary>
    public void EndFaults()
    {
        lock (gate)
        {
            faults.IsActive = false;
        }
    }

    /// <summary>Lives until it is stopped or the line's end is closed.</summary>
    /// <param name="stop">Stops it.</param>
    /// <returns>Done when it has stopped.</returns>
    public async Task RunAsync(CancellationToken stop)
    {
        var hearing = HearAsync();
        try
        {
            while (!stop.IsCancellationRequested && !hearing.IsCompleted)
            {
                foreach (var piece in LookAfter())
                {
                    await WriteAsync(piece).ConfigureAwait(false);
                }

                await received.WaitAsync(Beat, stop).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Stopped, as was asked.
        }

        side.Close();
        await hearing.ConfigureAwait(false);
        spoken.Writer.TryComplete();
    }

    /// <summary>Waits until a host has greeted the instrument.</summary>
    /// <param name="cancel">Gives up.</param>
    /// <returns>Done when it has.</returns>
    public Task WhenGreetedAsync(CancellationToken cancel) =>
        UntilAsync(() => Instrument.Link.Phase >= InstrumentLinkPhase.Idle, cancel);

    /// <summary>Waits until a host has acknowledged all events so far.</summary>
    /// <param name="cancel">Gives up.</param>
    /// <returns>Done when it has.</returns>
    public async ValueTask WhenAllAcknowledgedAsync(CancellationToken cancel) =>
        await UntilAsync(() => Instrument.IsAllAcknowledged, cancel).ConfigureAwait(false);

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        side.Close();
        received.Dispose();
        return ValueTask.CompletedTask;
    }

    private async Task HearAsync()
    {
        var buffer = new byte[4096];
        int count;
        while ((count = await side.ReadAsync(buffer).ConfigureAwait(false)) > 0)
        {
            lock (gate)
            {
                faults.FromHost(buffer.AsSpan(0, count), Now, piece => Instrument.Receive(piece, Now));
            }

            if (received.CurrentCount == 0)
            {
                received.Release();
            }
        }
    }

    private List<byte[]> LookAfter()
    {
        var pieces = new List<byte[]>();
        lock (gate)
        {
            var now = Now;
            var passed = (now - reached) * pace;
            reached = now;
            if (exam is not null)
            {
                exam.Step(passed);
                Announce(exam);
            }
            else if (bench is not null)
            {
                bench.Step(passed);
            }
            else if (!WaitsForExam)
            {
                Instrument.Advance(passed);
            }

            faults.Act(this, now);
            faults.FromHost([], now, piece => Instrument.Receive(piece, now));
            faults.ToHost(Instrument.Collect(now), now, piece => pieces.Add(piece.ToArray()));
        }

        return pieces;
    }

    private void Announce(SimulatedExam current)
    {
        if (current.AboutToSay is { } judgement && announced is null)
        {
            announced = judgement;
            spoken.Writer.TryWrite(judgement);
        }
    }

    private async Task WriteAsync(byte[] piece)
    {
        try
        {
            await side.WriteAsync(piece, WriteLimit).ConfigureAwait(false);
        }
        catch (PortLostException)
        {
            // A host that does not read, or none any more: the bytes are gone, as on a real line; the link repeats events.
        }
    }

    private async Task UntilAsync(Func<bool> isSo, CancellationToken cancel)
    {
        while (!With(_ => isSo()))
        {
            await Task.Delay(Beat, time, cancel).ConfigureAwait(false);
        }
    }
}
