namespace PupilBridge.Ports;

/// <summary>Why a port could not be opened.</summary>
public enum PortOpenFault
{
    /// <summary>Something else; the message says what the system said.</summary>
    Other = 0,

    /// <summary>There is no such port, or nobody listens at that address.</summary>
    Missing,

    /// <summary>The account may not open it.</summary>
    Forbidden,

    /// <summary>Another program holds it.</summary>
    Busy,

    /// <summary>It exists but is not a serial line.</summary>
    NotATerminal,

    /// <summary>It is a folder.</summary>
    IsDirectory,

    /// <summary>The name exists but no device answers behind it.</summary>
    NoDevice,
}
