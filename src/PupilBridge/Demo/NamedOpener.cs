using PupilBridge.Ports;

namespace PupilBridge.Demo;

/// <summary>
/// The demo's port under a name that stays: a pseudo-terminal gets whatever number is free, and the journal of the demo is to
/// say the same on every run. It counts what passes.
/// </summary>
/// <param name="inner">Opens the port.</param>
/// <param name="name">The name that stays.</param>
/// <param name="meter">Counts.</param>
internal sealed class NamedOpener(IPortOpener inner, string name, LineMeter meter) : IPortOpener
{
    /// <inheritdoc/>
    public string Name => name;

    /// <inheritdoc/>
    public async ValueTask<IPort> OpenAsync()
    {
        var port = await inner.OpenAsync().ConfigureAwait(false);
        meter.Opened();
        return new NamedPort(port, name, meter);
    }

    private sealed class NamedPort(IPort inner, string name, LineMeter meter) : IPort
    {
        private int unfinished;

        public string Name => name;

        public async ValueTask<int> ReadAsync(Memory<byte> buffer)
        {
            // Whoever reads again has dealt with what it read before.
            meter.Taken(Interlocked.Exchange(ref unfinished, 0));
            var count = await inner.ReadAsync(buffer).ConfigureAwait(false);
            unfinished = count;
            return count;
        }

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
        {
            meter.Answered(bytes.Length);
            return inner.WriteAsync(bytes, limit);
        }

        public void Close() => inner.Close();

        public ValueTask DisposeAsync() => inner.DisposeAsync();
    }
}
