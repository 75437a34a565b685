namespace PupilBridge.Ports;

/// <summary>A port that was open is gone: unplugged, closed, or it did not take a write in time. Open a new one.</summary>
public sealed class PortLostException : IOException
{
    /// <summary>Says which port was lost and how.</summary>
    /// <param name="port">The port's name.</param>
    /// <param name="how">What happened, as the end of a sentence, for a person.</param>
    /// <param name="inner">What the system threw, if it did.</param>
    public PortLostException(string port, string how, Exception? inner = null)
        : base($"The port {port} is lost: {how}", inner)
    {
        Port = port;
        How = how;
    }

    /// <summary>The port's name.</summary>
    public string Port { get; }

    /// <summary>What happened, as the end of a sentence.</summary>
    public string How { get; }
}
