using System.Buffers;
using System.IO.Pipelines;

namespace PupilBridge.Ports;

/// <summary>
/// The bounded buffer between whoever takes bytes off a line and whoever reads the port. When it is full the taker waits,
/// so that the line itself holds back; nothing is ever dropped here.
/// </summary>
/// <remarks>
/// A pipe throws away what is still buffered when its writer completes with an exception. So the writer always completes
/// plainly, and the reason is kept here and thrown once all bytes that had arrived are read.
/// </remarks>
internal sealed class ReceivePipe
{
    /// <summary>Bytes held before the taker must wait: half a second of the fastest usual line (921,600 baud).</summary>
    internal const int DefaultCapacity = 64 * 1024;

    private readonly string port;
    private readonly ReadGuard guard;
    private readonly Pipe pipe;
    private volatile bool closed;
    private volatile PortLostException? lost;

    /// <param name="port">The port's name.</param>
    /// <param name="capacity">Bytes held before the taker must wait.</param>
    /// <param name="reader">
    /// Where a waiting reader goes on. Inline it does so on the taker's own thread, which spares a change of threads for each
    /// read; the reader must then not wait for anything on that thread.
    /// </param>
    internal ReceivePipe(string port, int capacity = DefaultCapacity, PipeScheduler? reader = null)
    {
        this.port = port;
        guard = new ReadGuard(port);
        pipe = new Pipe(
            new PipeOptions(
                pauseWriterThreshold: capacity,
                resumeWriterThreshold: Math.Max(1, capacity / 2),
                readerScheduler: reader,
                useSynchronizationContext: false
            )
        );
    }

    /// <summary>Whether nobody wants bytes any more.</summary>
    internal bool IsClosed => closed;

    /// <summary>Why the line ended, once it did.</summary>
    internal PortLostException? Lost => lost;

    internal async ValueTask<int> ReadAsync(Memory<byte> buffer)
    {
        guard.Enter(buffer);
        try
        {
            return closed ? 0 : Take(await pipe.Reader.ReadAsync().ConfigureAwait(false), buffer);
        }
        finally
        {
            guard.Leave();
        }
    }

    /// <summary>Room for the next bytes off the line.</summary>
    internal Memory<byte> Room(int atLeast) => pipe.Writer.GetMemory(atLeast);

    /// <summary>Takes over the bytes that were put into <see cref="Room"/>; pends while the buffer is full.</summary>
    /// <returns>False when nobody wants bytes any more, or when <see cref="Interrupt"/> ended the wait.</returns>
    internal async ValueTask<bool> FilledAsync(int count)
    {
        pipe.Writer.Advance(count);
        var result = await pipe.Writer.FlushAsync().ConfigureAwait(false);
        return !closed && !result.IsCanceled;
    }

    /// <summary>Ends a wait in <see cref="FilledAsync"/>; the bytes stay.</summary>
    internal void Interrupt() => pipe.Writer.CancelPendingFlush();

    /// <summary>The taker's last call: the line ended for this reason.</summary>
    internal void End(PortLostException reason)
    {
        lost ??= reason;
        pipe.Writer.Complete();
    }

    /// <summary>The reader's side is done: a waiting read returns 0, a waiting taker goes on. May be called at any time.</summary>
    internal void Close()
    {
        closed = true;
        pipe.Reader.CancelPendingRead();
        pipe.Writer.CancelPendingFlush();
    }

    private int Take(ReadResult result, Memory<byte> buffer)
    {
        var waiting = result.Buffer;
        if (closed || waiting.IsEmpty)
        {
            pipe.Reader.AdvanceTo(waiting.Start);
            return closed ? 0 : throw lost ?? new PortLostException(port, "the line ended.");
        }

        var taken = waiting.Slice(0, Math.Min(waiting.Length, buffer.Length));
        var count = (int)taken.Length; // Asked before the pipe takes its memory back.
        taken.CopyTo(buffer.Span);
        pipe.Reader.AdvanceTo(taken.End);
        return count;
    }
}
