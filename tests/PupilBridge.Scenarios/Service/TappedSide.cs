using PupilBridge.Ports;

namespace PupilBridge.Scenarios.Service;

/// <summary>The instrument's end of a line, with someone who is told of all that it writes.</summary>
/// <param name="side">The end itself; it stays the caller's to dispose.</param>
/// <param name="onWrite">Told of each piece just before it is written.</param>
internal sealed class TappedSide(IInstrumentSide side, Action<ReadOnlyMemory<byte>> onWrite) : IInstrumentSide
{
    public string Name => side.Name;

    public PortAddress Address => side.Address;

    public bool IsPlugged => side.IsPlugged;

    public bool HasHost => side.HasHost;

    public ValueTask<int> ReadAsync(Memory<byte> buffer) => side.ReadAsync(buffer);

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        onWrite(bytes);
        return side.WriteAsync(bytes, limit);
    }

    public void Close() => side.Close();

    public void Unplug() => side.Unplug();

    public void Replug() => side.Replug();

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
