using PupilBridge.Ports;

namespace PupilBridge.Worker.Lines;

/// <summary>
/// What waits to be written to one port. Lines are put in by whoever has some, and nobody waits for the port: the first
/// to <see cref="Flush"/> hands them over, and what comes meanwhile goes with the next write. So an acknowledgement goes
/// out on the journal's own thread without a change of threads, yet a port that does not take it holds nobody up.
/// </summary>
/// <param name="port">Where the bytes go.</param>
/// <param name="limit">The longest time that a write may take.</param>
/// <param name="onLost">Told once, when a write failed: the line is lost. Called on any thread.</param>
internal sealed class OutgoingLine(IPort port, TimeSpan limit, Action<Exception> onLost)
{
    /// <summary>
    /// More than this many waiting bytes are thrown away: a line that takes nothing is about to be lost anyway, and all
    /// that a host says is said again on the next one.
    /// </summary>
    internal const int MaxWaitingBytes = 16 * 1024;

    private readonly Lock gate = new();
    private byte[] waiting = new byte[1024];
    private byte[] writing = new byte[1024];
    private int waitingBytes;
    private bool busy;
    private bool lost;

    /// <summary>Takes one line to be written with the next flush.</summary>
    /// <param name="line">The whole line with its end.</param>
    public void Put(ReadOnlySpan<byte> line)
    {
        lock (gate)
        {
            if (lost || waitingBytes + line.Length > MaxWaitingBytes)
                return;
            if (waitingBytes + line.Length > waiting.Length)
                Array.Resize(ref waiting, Math.Max(waiting.Length * 2, waitingBytes + line.Length));
            line.CopyTo(waiting.AsSpan(waitingBytes));
            waitingBytes += line.Length;
        }
    }

    /// <summary>Begins to write what waits, unless a write is under way, which then takes it along.</summary>
    public void Flush()
    {
        lock (gate)
        {
            if (busy || lost || waitingBytes == 0)
                return;
            busy = true;
        }

        _ = WriteAllAsync();
    }

    private async Task WriteAllAsync()
    {
        try
        {
            while (Next() is { Length: > 0 } bytes)
                await port.WriteAsync(bytes, limit).ConfigureAwait(false);
        }
        catch (Exception e) when (e is IOException or ObjectDisposedException or InvalidOperationException)
        {
            lock (gate)
                lost = true;
            onLost(e);
        }
    }

    private ReadOnlyMemory<byte> Next()
    {
        lock (gate)
        {
            (waiting, writing) = (writing, waiting);
            var bytes = writing.AsMemory(0, waitingBytes);
            waitingBytes = 0;
            busy = bytes.Length > 0;
            return bytes;
        }
    }
}
