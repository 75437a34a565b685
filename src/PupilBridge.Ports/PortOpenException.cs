namespace PupilBridge.Ports;

/// <summary>A port could not be opened. The message is for a person: which port, what happened, what to do next.</summary>
public sealed class PortOpenException : IOException
{
    /// <summary>Says which port, why, and what to do.</summary>
    /// <param name="port">The port's name.</param>
    /// <param name="fault">Why.</param>
    /// <param name="message">The whole message for a person.</param>
    /// <param name="inner">What the system threw, if it did.</param>
    public PortOpenException(string port, PortOpenFault fault, string message, Exception? inner = null)
        : base(message, inner)
    {
        Port = port;
        Fault = fault;
    }

    /// <summary>The port's name.</summary>
    public string Port { get; }

    /// <summary>Why it could not be opened.</summary>
    public PortOpenFault Fault { get; }
}
