namespace PupilBridge.Ports;

/// <summary>Opens one port again and again, each time as a new <see cref="IPort"/>. It holds nothing open itself.</summary>
public interface IPortOpener
{
    /// <summary>The name to show a person: the path, address or name by which the port was asked for.</summary>
    string Name { get; }

    /// <summary>Opens the port. Bytes that waited from before are discarded where the system keeps such.</summary>
    /// <returns>A new port that nobody else holds.</returns>
    /// <exception cref="PortOpenException">It could not be opened; the fault and the message say why.</exception>
    ValueTask<IPort> OpenAsync();
}
