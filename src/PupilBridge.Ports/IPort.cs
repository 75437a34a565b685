namespace PupilBridge.Ports;

/// <summary>
/// One opened line to the other side, whatever carries it. Bytes arrive in order and unchanged, in pieces of any size;
/// what a line or a message is, others decide.
/// </summary>
/// <remarks>
/// <para>
/// A port is lost once and for good: after a read said so, make a new one with the opener. There is no way to ask
/// whether a port "is open", because no system answers that question truthfully after an unplug; a read says it.
/// </para>
/// <para>
/// Thread safety: one read at a time; writes may come from several threads and are sent one after the other; a read, a
/// write and <see cref="Close"/> may overlap freely.
/// </para>
/// </remarks>
public interface IPort : IAsyncDisposable
{
    /// <summary>The name to show a person: the path, address or name by which the port was asked for.</summary>
    string Name { get; }

    /// <summary>
    /// Reads what has arrived, or waits until something does. There is no token and no time limit, because a read that
    /// is given up loses bytes; whoever needs a limit watches the clock elsewhere and calls <see cref="Close"/>. What comes
    /// after the wait may run on the port's own thread: it must be quick, and must not block that thread.
    /// </summary>
    /// <param name="buffer">Where the bytes go; at least one byte long.</param>
    /// <returns>The number of bytes, 1 or more; 0 when the port was closed or lost.</returns>
    /// <exception cref="PortLostException">The port is lost; the message says how.</exception>
    /// <exception cref="ArgumentException">The buffer is empty.</exception>
    /// <exception cref="InvalidOperationException">Another read is still waiting.</exception>
    ValueTask<int> ReadAsync(Memory<byte> buffer);

    /// <summary>Hands all bytes to the line, in order.</summary>
    /// <param name="bytes">The bytes; they must not change until the write is done. None is allowed and does nothing.</param>
    /// <param name="limit">The longest time that it may take, more than zero. A write over its limit means a lost port.</param>
    /// <returns>Done when the line has taken the bytes; that does not mean that the other side has seen them.</returns>
    /// <exception cref="PortLostException">The port is closed or lost, or the limit has passed.</exception>
    ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit);

    /// <summary>
    /// Ends the port: a waiting read returns within 50 ms, a waiting write fails, and later ones do so at once. Never
    /// hangs and never throws; calling it again does nothing. The system may need a moment longer to let go of the
    /// device: <see cref="IAsyncDisposable.DisposeAsync"/> waits for that, up to 3 s.
    /// </summary>
    void Close();
}
