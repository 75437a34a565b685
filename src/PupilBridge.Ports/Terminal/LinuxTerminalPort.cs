using System.IO.Pipelines;
using System.Runtime.Versioning;
using PupilBridge.Ports.Native;

namespace PupilBridge.Ports;

/// <summary>
/// A serial line by the Linux terminal calls: one thread waits in <c>poll</c> for bytes, a hang-up or a stop, and puts
/// what arrives into the receive pipe. While nothing arrives it costs nothing. A write goes out on the caller's thread; only
/// one that finds the line full waits elsewhere.
/// </summary>
[SupportedOSPlatform("linux")]
internal sealed class LinuxTerminalPort : IPort
{
    private static readonly TimeSpan JoinLimit = TimeSpan.FromMilliseconds(40);
    private static readonly TimeSpan ReleaseLimit = TimeSpan.FromSeconds(3);

    private readonly FileHandle terminal;
    private readonly StopSignal stop = new();
    private readonly ReceivePipe received;
    private readonly TerminalSender sender;
    private readonly Thread taker;
    private readonly TaskCompletionSource released = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private volatile PortLostException? over;

    /// <summary>Takes over a terminal that is open, locked and raw.</summary>
    internal LinuxTerminalPort(string name, FileHandle terminal)
    {
        Name = name;
        this.terminal = terminal;
        // What a read leads to is done on the taker's thread: it comes soonest, and the taker has nothing better to do.
        received = new ReceivePipe(name, reader: PipeScheduler.Inline);
        sender = new TerminalSender(name, terminal, stop);
        taker = new Thread(Take, 256 * 1024) { IsBackground = true, Name = "port " + name };
        taker.Start();
    }

    public string Name { get; }

    public ValueTask<int> ReadAsync(Memory<byte> buffer) => received.ReadAsync(buffer);

    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        try
        {
            ThrowIfOver();
            await sender.SendAsync(bytes, limit).ConfigureAwait(false);
        }
        catch (PortLostException how)
        {
            Lose(how);
            ThrowIfOver();
        }
    }

    public void Close()
    {
        received.Close();
        Lose(new PortLostException(Name, "it was closed."));
        if (Thread.CurrentThread != taker)
        {
            taker.Join(JoinLimit);
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (over is null)
        {
            await sender.DrainAsync().ConfigureAwait(false);
        }

        Close();
        await Task.WhenAny(released.Task, Task.Delay(ReleaseLimit)).ConfigureAwait(false);
    }

    private void ThrowIfOver()
    {
        if (over is { } how)
        {
            throw new PortLostException(Name, how.How, how.InnerException);
        }
    }

    private void Lose(PortLostException how)
    {
        Interlocked.CompareExchange(ref over, how, null);
        stop.Set();
    }

    private void Take()
    {
        try
        {
            Lose(TerminalTaker.TakeUntilLost(Name, terminal, stop, received));
        }
        catch (Exception error)
        {
            // A fault of ours must cost this port alone, not the program.
            Lose(new PortLostException(Name, $"its reading failed ({error.Message})", error));
        }
        finally
        {
            received.End(over ?? new PortLostException(Name, "its reading ended."));
            TerminalOpening.LetGo(terminal);
            stop.Dispose();
            released.SetResult();
        }
    }
}
