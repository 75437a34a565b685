namespace PupilBridge.Ports;

/// <summary>What carries a port.</summary>
public enum PortAdapter
{
    /// <summary>A serial line by the runtime's own library: everywhere, the default outside Linux.</summary>
    Serial = 0,

    /// <summary>A serial line by the Linux terminal calls: Linux only, and the default there.</summary>
    Terminal,

    /// <summary>A TCP connection.</summary>
    Tcp,

    /// <summary>A line within this process, for tests and simulations.</summary>
    Memory,
}
