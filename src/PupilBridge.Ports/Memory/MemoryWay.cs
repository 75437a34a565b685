namespace PupilBridge.Ports;

/// <summary>One direction of a memory line: a bounded queue of bytes whose writer waits while it is full.</summary>
internal sealed class MemoryWay
{
    private readonly ReceivePipe pipe;
    private readonly TimeProvider time;
    private readonly int pieceBytes;
    private readonly WriteTurns turns = new();
    private readonly Lock pipeWriter = new();
    private bool ended;

    internal MemoryWay(string port, int capacityBytes, TimeProvider time)
    {
        pipe = new ReceivePipe(port, capacityBytes);
        pieceBytes = Math.Max(1, capacityBytes / 2);
        this.time = time;
    }

    internal ValueTask<int> ReadAsync(Memory<byte> buffer) => pipe.ReadAsync(buffer);

    /// <summary>Writes all bytes.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="limit">The longest wait for room.</param>
    /// <param name="cut">Asked before each piece: whether the way has been cut meanwhile.</param>
    /// <returns>False if the limit passed with bytes still to go, or if the way was cut.</returns>
    internal async ValueTask<bool> WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit, Func<bool> cut)
    {
        var started = time.GetTimestamp();
        await turns.TakeAsync().ConfigureAwait(false);
        try
        {
            while (!bytes.IsEmpty && !cut())
            {
                var piece = bytes[..Math.Min(bytes.Length, pieceBytes)];
                if (!await PassAsync(piece, limit - time.GetElapsedTime(started)).ConfigureAwait(false))
                {
                    return false;
                }

                bytes = bytes[piece.Length..];
            }

            return bytes.IsEmpty && !cut();
        }
        finally
        {
            turns.Pass();
        }
    }

    /// <summary>Lets a waiting writer go on, which then asks whether the way was cut.</summary>
    internal void Interrupt() => pipe.Interrupt();

    /// <summary>The reader gets what has crossed, then this reason.</summary>
    internal void End(PortLostException reason)
    {
        lock (pipeWriter)
        {
            if (!ended)
            {
                ended = true;
                pipe.Interrupt();
                pipe.End(reason);
            }
        }
    }

    /// <summary>The reader is done.</summary>
    internal void Close() => pipe.Close();

    private async ValueTask<bool> PassAsync(ReadOnlyMemory<byte> piece, TimeSpan left)
    {
        Task<bool> passing;
        lock (pipeWriter)
        {
            if (ended)
            {
                return false;
            }

            piece.CopyTo(pipe.Room(piece.Length));
            passing = pipe.FilledAsync(piece.Length).AsTask();
        }

        if (passing.IsCompleted)
        {
            return true;
        }

        if (left > TimeSpan.Zero)
        {
            try
            {
                await passing.WaitAsync(left, time).ConfigureAwait(false);
                return true;
            }
            catch (TimeoutException)
            {
                // The piece has crossed, yet the other side did not make room in time.
            }
        }

        pipe.Interrupt();
        await passing.ConfigureAwait(false);
        return false;
    }
}
