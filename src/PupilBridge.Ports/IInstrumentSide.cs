namespace PupilBridge.Ports;

/// <summary>
/// The other end of a line, where a stand-in instrument speaks. It outlives the host's ports: hosts come and go, the
/// cable is pulled and put back, and the same read goes on waiting.
/// </summary>
/// <remarks>
/// As on a real line, what is written while no host listens is gone, and nothing says so. A write over its limit (a host
/// that has the port open and does not read) throws <see cref="PortLostException"/>, yet this side stays usable.
/// </remarks>
public interface IInstrumentSide : IPort
{
    /// <summary>What a host opens to reach this side; stays the same across unplugging.</summary>
    PortAddress Address { get; }

    /// <summary>Whether the cable is in.</summary>
    bool IsPlugged { get; }

    /// <summary>Whether a host has the line open at this moment.</summary>
    bool HasHost { get; }

    /// <summary>Pulls the cable: the host's port is lost, and opening finds none. Does nothing if it is out.</summary>
    void Unplug();

    /// <summary>Puts the cable back, so that the same address can be opened again. Does nothing if it is in.</summary>
    /// <exception cref="PortOpenException">The system refused a new line.</exception>
    void Replug();
}
