namespace PupilBridge.Ports;

/// <summary>The host's end of a <see cref="MemoryLine"/>, from one opening to its loss or close.</summary>
internal sealed class MemoryHostPort : IPort
{
    private readonly MemoryWay toInstrument;
    private readonly MemoryWay toHost;
    private volatile string? over;

    internal MemoryHostPort(string name, MemoryWay toInstrument, MemoryWay toHost)
    {
        Name = name;
        this.toInstrument = toInstrument;
        this.toHost = toHost;
    }

    public string Name { get; }

    internal bool IsOver => over is not null;

    public ValueTask<int> ReadAsync(Memory<byte> buffer) => toHost.ReadAsync(buffer);

    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        if (over is null && await toInstrument.WriteAsync(bytes, limit, () => IsOver).ConfigureAwait(false))
        {
            return;
        }

        Lose($"the other side took nothing for {limit.TotalSeconds:0.###} s.");
        throw new PortLostException(Name, over ?? "it ended.");
    }

    public void Close()
    {
        over ??= "it was closed.";
        toHost.Close();
        toInstrument.Interrupt();
    }

    public ValueTask DisposeAsync()
    {
        Close();
        return ValueTask.CompletedTask;
    }

    /// <summary>The line ended without the host's doing.</summary>
    internal void Lose(string how)
    {
        over ??= how;
        toHost.End(new PortLostException(Name, over));
        toInstrument.Interrupt();
    }

    /// <summary>Bytes from the instrument. True if the host took them, or if it has gone and they are lost.</summary>
    internal async ValueTask<bool> TakeAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit) =>
        await toHost.WriteAsync(bytes, limit, () => IsOver).ConfigureAwait(false) || IsOver;
}
