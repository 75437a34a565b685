namespace PupilBridge.Worker.Live;

/// <summary>One thing that changed. Each holds the whole new state of what it is about.</summary>
public abstract record LiveChange
{
    private LiveChange() { }

    /// <summary>A port changed.</summary>
    /// <param name="Port">The port as it is now.</param>
    public sealed record PortChanged(PortStatus Port) : LiveChange;

    /// <summary>A port is no longer there, and nobody named it.</summary>
    /// <param name="Port">Its name.</param>
    public sealed record PortGone(string Port) : LiveChange;

    /// <summary>An instrument changed.</summary>
    /// <param name="Instrument">The instrument as it is now.</param>
    public sealed record InstrumentChanged(LiveInstrument Instrument) : LiveChange;
}

/// <summary>Everything live, at one moment.</summary>
/// <param name="Ports">The ports, by name.</param>
/// <param name="Instruments">The instruments met since the service started, by serial number.</param>
public sealed record LiveSnapshot(IReadOnlyList<PortStatus> Ports, IReadOnlyList<LiveInstrument> Instruments);
