using System.Threading.Channels;
using PupilBridge.Ports;

namespace PupilBridge.Conformance.Lines;

/// <summary>A real port as a wire: one loop reads it all the time, so that bytes are stamped when they come.</summary>
public sealed class PortWire : IWire, IAsyncDisposable
{
    private static readonly TimeSpan WriteLimit = TimeSpan.FromSeconds(1);

    /// <summary>The system's timers do not reach further than some weeks.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromHours(1);

    private readonly IPort port;
    private readonly TimeProvider time;
    private readonly long opened;
    private readonly Channel<Arrival> arrivals = Channel.CreateUnbounded<Arrival>();
    private readonly Task reading;
    private Task<bool>? waiting;

    /// <summary>Takes over a port that was just opened.</summary>
    /// <param name="port">The port; closed with this.</param>
    /// <param name="time">The clock.</param>
    public PortWire(IPort port, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(port);
        ArgumentNullException.ThrowIfNull(time);
        this.port = port;
        this.time = time;
        opened = time.GetTimestamp();
        reading = ReadAllAsync();
    }

    /// <inheritdoc/>
    public TimeSpan Now => time.GetElapsedTime(opened);

    /// <inheritdoc/>
    public async ValueTask<Arrival> ReadAsync(TimeSpan until, CancellationToken cancel)
    {
        while (true)
        {
            if (arrivals.Reader.TryRead(out var ready))
            {
                return ready;
            }

            cancel.ThrowIfCancellationRequested();
            var left = until - Now;
            if (left <= TimeSpan.Zero)
            {
                return new Arrival(default, Now);
            }

            // A wait that ran out of time goes on for the next call; it may be over already for bytes that were read since.
            waiting ??= arrivals.Reader.WaitToReadAsync(CancellationToken.None).AsTask();
            try
            {
                var isMore = await waiting
                    .WaitAsync(left < LongestWait ? left : LongestWait, time, cancel)
                    .ConfigureAwait(false);
                waiting = null;
                if (!isMore)
                {
                    throw new PortLostException(port.Name, "it was closed.");
                }
            }
            catch (TimeoutException)
            {
                // Whether the time is up is asked above.
            }
        }
    }

    /// <inheritdoc/>
    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes) => port.WriteAsync(bytes, WriteLimit);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        port.Close();
        await reading.ConfigureAwait(false);
        await port.DisposeAsync().ConfigureAwait(false);
    }

    private async Task ReadAllAsync()
    {
        var buffer = new byte[4096];
        Exception? lost = null;
        try
        {
            int count;
            while ((count = await port.ReadAsync(buffer).ConfigureAwait(false)) > 0)
            {
                arrivals.Writer.TryWrite(new Arrival(buffer.AsMemory(0, count).ToArray(), Now));
            }
        }
        catch (PortLostException loss)
        {
            lost = loss;
        }

        arrivals.Writer.TryComplete(lost);
    }
}
