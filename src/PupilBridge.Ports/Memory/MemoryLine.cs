namespace PupilBridge.Ports;

/// <summary>
/// A line within the process, with both ends and a cable that can be pulled. This object is the instrument's end;
/// <see cref="Host"/> opens the other. Bounded, in order, without timers or chance of its own.
/// </summary>
public sealed class MemoryLine : IInstrumentSide
{
    /// <summary>Bytes that may wait in each direction; about what the kernel keeps for a pseudo-terminal.</summary>
    public const int DefaultCapacityBytes = 16 * 1024;

    private readonly Lock plug = new();
    private readonly TimeProvider time;
    private readonly int capacityBytes;
    private readonly MemoryWay toInstrument;
    private MemoryHostPort? host;
    private bool closed;
    private bool plugged = true;

    /// <summary>Makes a line that is plugged in.</summary>
    /// <param name="name">The name after <c>memory:</c>, not empty.</param>
    /// <param name="time">Measures the limits of writes.</param>
    /// <param name="capacityBytes">Bytes that may wait in each direction, 2 or more.</param>
    /// <exception cref="FormatException">The name cannot be.</exception>
    public MemoryLine(string name, TimeProvider time, int capacityBytes = DefaultCapacityBytes)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(capacityBytes, 2);
        Address = PortAddress.Memory(name);
        Host = new MemoryHostOpener(this);
        this.time = time;
        this.capacityBytes = capacityBytes;
        toInstrument = new MemoryWay(Name, capacityBytes, time);
    }

    /// <inheritdoc/>
    public string Name => Address.Text;

    /// <inheritdoc/>
    public PortAddress Address { get; }

    /// <summary>Opens the host's end.</summary>
    public IPortOpener Host { get; }

    /// <inheritdoc/>
    public bool IsPlugged
    {
        get
        {
            lock (plug)
            {
                return plugged && !closed;
            }
        }
    }

    /// <inheritdoc/>
    public bool HasHost => CurrentHost is not null;

    private MemoryHostPort? CurrentHost
    {
        get
        {
            lock (plug)
            {
                return host is { IsOver: false } open ? open : null;
            }
        }
    }

    /// <inheritdoc/>
    public ValueTask<int> ReadAsync(Memory<byte> buffer) => toInstrument.ReadAsync(buffer);

    /// <inheritdoc/>
    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        if (closed)
        {
            throw new PortLostException(Name, "it was closed.");
        }

        if (CurrentHost is { } listener && !await listener.TakeAsync(bytes, limit).ConfigureAwait(false))
        {
            throw new PortLostException(Name, $"the host did not read for {limit.TotalSeconds:0.###} s.");
        }
    }

    /// <inheritdoc/>
    public void Unplug()
    {
        MemoryHostPort? last;
        lock (plug)
        {
            plugged = false;
            last = host;
            host = null;
        }

        last?.Lose("the cable was pulled.");
        toInstrument.Interrupt();
    }

    /// <inheritdoc/>
    public void Replug()
    {
        lock (plug)
        {
            plugged = true;
        }
    }

    /// <inheritdoc/>
    public void Close()
    {
        closed = true;
        Unplug();
        toInstrument.Close();
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        Close();
        return ValueTask.CompletedTask;
    }

    internal MemoryHostPort Open()
    {
        lock (plug)
        {
            if (!plugged || closed)
            {
                var text = $"There is no port {Name}: its cable is out. Put it back and try again.";
                throw new PortOpenException(Name, PortOpenFault.Missing, text);
            }

            if (host is { IsOver: false })
            {
                var text = $"The port {Name} is in use within this program. Close the other user of it first.";
                throw new PortOpenException(Name, PortOpenFault.Busy, text);
            }

            host = new MemoryHostPort(Name, toInstrument, new MemoryWay(Name, capacityBytes, time));
            return host;
        }
    }

    private sealed class MemoryHostOpener(MemoryLine line) : IPortOpener
    {
        public string Name => line.Name;

        public ValueTask<IPort> OpenAsync()
        {
            try
            {
                return new ValueTask<IPort>(line.Open());
            }
            catch (PortOpenException fault)
            {
                return ValueTask.FromException<IPort>(fault);
            }
        }
    }
}
