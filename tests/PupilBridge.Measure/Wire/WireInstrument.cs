using System.Diagnostics;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;
using PupilBridge.Ports;

namespace PupilBridge.Measure.Wire;

/// <summary>
/// The least that can stand at the other end of a line: presents itself, beats, sends one event after the other and notes
/// when each is acknowledged.
/// </summary>
internal sealed class WireInstrument : IAsyncDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(5);
    private readonly PseudoTerminal terminal;
    private readonly BootNumber boot = new(0x0123_4567_89AB_CDEF);
    private readonly byte[] line = new byte[WireLimits.MaxLineBytes];
    private readonly SemaphoreSlim writing = new(1);
    private readonly CancellationTokenSource stop = new();
    private readonly long start = Stopwatch.GetTimestamp();
    private readonly Task hearing;
    private readonly Task beating;
    private TaskCompletionSource<long> acknowledged = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private long last;
    private long acknowledgedTo;
    private volatile bool greeted;

    public WireInstrument(string link)
    {
        terminal = new PseudoTerminal(link);
        hearing = Task.Run(HearAsync);
        beating = Task.Run(BeatAsync);
    }

    private Tick Now => new((long)Stopwatch.GetElapsedTime(start).TotalMilliseconds);

    /// <summary>Sends one event and waits for its acknowledgement.</summary>
    /// <returns>Microseconds from the write to the arrival of the acknowledgement.</returns>
    public async Task<double> SendAsync()
    {
        var waiter = new TaskCompletionSource<long>(TaskCreationOptions.RunContinuationsAsynchronously);
        acknowledged = waiter;
        var happened = InstrumentEvent.ScaleAtRest(Now, Eye.Right, new Micrometres(8_000 + (int)(last % 4_000)));
        var begin = Stopwatch.GetTimestamp();
        await WriteAsync(new InstrumentLine(happened with { Boot = boot, Sequence = ++last }));
        while (await waiter.Task.WaitAsync(Limit) is var end)
        {
            if (Volatile.Read(ref acknowledgedTo) >= last)
                return Stopwatch.GetElapsedTime(begin, end).TotalMicroseconds;
            waiter = acknowledged = new(TaskCreationOptions.RunContinuationsAsynchronously);
        }

        throw new UnreachableException();
    }

    /// <summary>Waits until a host has greeted and taken a first event.</summary>
    public async Task MeetAsync()
    {
        var patience = Stopwatch.StartNew();
        while (!greeted)
        {
            if (patience.Elapsed > TimeSpan.FromSeconds(20))
                throw new TimeoutException("No host has greeted the instrument within 20 s.");
            await Task.Delay(20);
        }

        last = 1;
        while (Volatile.Read(ref acknowledgedTo) < 1)
        {
            var first = InstrumentEvent.ScaleAtRest(Now, Eye.Right, new Micrometres(8_000));
            await WriteAsync(new InstrumentLine(first with { Boot = boot, Sequence = 1 }));
            await Task.Delay(250);
            if (patience.Elapsed > TimeSpan.FromSeconds(30))
                throw new TimeoutException("The first event was not acknowledged within 30 s.");
        }
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await beating;
        terminal.Close();
        await hearing;
        await terminal.DisposeAsync();
        stop.Dispose();
        writing.Dispose();
    }

    private async Task HearAsync()
    {
        var buffer = new byte[4096];
        var kept = 0;
        int count;
        while ((count = await terminal.ReadAsync(buffer.AsMemory(kept))) > 0)
        {
            var at = Stopwatch.GetTimestamp();
            kept += count;
            var used = 0;
            while (LineFramer.Next(buffer.AsSpan(used, kept - used), resyncing: false) is { Consumed: > 0 } frame)
            {
                if (HostLineDecoder.TryDecode(buffer.AsSpan(used, frame.Length), out var host, out _))
                    await TakeAsync(host, at);
                used += frame.Consumed;
            }

            buffer.AsSpan(used, kept - used).CopyTo(buffer);
            kept -= used;
        }
    }

    private async Task TakeAsync(HostLine host, long at)
    {
        switch (host.Kind)
        {
            case HostLineKind.Who:
                await PresentAsync();
                greeted = true;
                break;
            case HostLineKind.Ack when host.Boot == boot:
                Volatile.Write(ref acknowledgedTo, Math.Max(acknowledgedTo, host.Sequence));
                acknowledged.TrySetResult(at);
                break;
            default:
                break;
        }
    }

    private async Task PresentAsync()
    {
        await WriteAsync(
            new InstrumentLine(
                new IdentityHead(
                    1,
                    AsciiText.From("QM-0001"),
                    AsciiText.From("Quay-A"),
                    AsciiText.From("1.0.0"),
                    boot,
                    InstrumentAbilities.MarkKeys,
                    1,
                    0,
                    default
                )
            )
        );
        await WriteAsync(new InstrumentLine(new DialStop(1, InstrumentMode.Idle, Block.None)));
        var scale = new ScaleDescription(new(200), ScaleDirection.Temporal, new(10), new(0), new(30_000));
        await WriteAsync(new InstrumentLine(new EyeScale(Eye.Right, scale)));
        await WriteAsync(new InstrumentLine(new EyeScale(Eye.Left, scale)));
        await BeatOnceAsync();
    }

    private async Task BeatAsync()
    {
        while (!stop.IsCancellationRequested)
        {
            if (greeted)
                await BeatOnceAsync();
            await Task.Delay(1000, stop.Token).ContinueWith(_ => { }, TaskScheduler.Default);
        }
    }

    private Task BeatOnceAsync() =>
        WriteAsync(
            new InstrumentLine(
                new Heartbeat(boot, Now, Volatile.Read(ref acknowledgedTo) + 1, Volatile.Read(ref acknowledgedTo), null)
            )
        );

    private async Task WriteAsync(InstrumentLine said)
    {
        await writing.WaitAsync();
        try
        {
            var length = InstrumentLineEncoder.Encode(said, line);
            await terminal.WriteAsync(line.AsMemory(0, length), Limit);
        }
        finally
        {
            writing.Release();
        }
    }
}
