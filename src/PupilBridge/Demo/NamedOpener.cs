using PupilBridge.Ports;

namespace PupilBridge.Demo;

/// <summary>
/// A port under another name. A pseudo-terminal gets whatever number is free; the journal of the demo is to say the same on
/// every run, so the line goes by a name that stays.
/// </summary>
/// <param name="inner">Opens the port.</param>
/// <param name="name">The name that stays.</param>
internal sealed class NamedOpener(IPortOpener inner, string name) : IPortOpener
{
    /// <inheritdoc/>
    public string Name => name;

    /// <inheritdoc/>
    public async ValueTask<IPort> OpenAsync() => new NamedPort(await inner.OpenAsync().ConfigureAwait(false), name);

    private sealed class NamedPort(IPort inner, string name) : IPort
    {
        public string Name => name;

        public ValueTask<int> ReadAsync(Memory<byte> buffer) => inner.ReadAsync(buffer);

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit) => inner.WriteAsync(bytes, limit);

        public void Close() => inner.Close();

        public ValueTask DisposeAsync() => inner.DisposeAsync();
    }
}
