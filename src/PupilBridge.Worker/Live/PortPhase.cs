namespace PupilBridge.Worker.Live;

/// <summary>What is the matter with one port just now.</summary>
public enum PortPhase
{
    /// <summary>There is no such port: nothing is plugged in there, or nobody listens at that address.</summary>
    Absent = 1,

    /// <summary>Another program holds the port.</summary>
    Busy = 2,

    /// <summary>The account of the service may not open the port.</summary>
    Forbidden = 3,

    /// <summary>What is there is no serial line.</summary>
    Unsuitable = 4,

    /// <summary>The port is being opened.</summary>
    Opening = 5,

    /// <summary>The port is open, and the instrument was asked who it is.</summary>
    Greeting = 6,

    /// <summary>The instrument answers; its events are taken.</summary>
    Live = 7,

    /// <summary>The port is open, and nothing, or nothing readable, comes.</summary>
    Silent = 8,

    /// <summary>Another host holds the instrument.</summary>
    HeldByOther = 9,

    /// <summary>Instrument and bridge speak no common version of the protocol.</summary>
    NoCommonVersion = 10,

    /// <summary>The instrument claims a serial number that is live on another port, or is not the one expected.</summary>
    WrongInstrument = 11,

    /// <summary>The line was lost, or could not be opened for another reason; it is tried again.</summary>
    BackingOff = 12,

    /// <summary>The port is no longer served.</summary>
    Stopped = 13,
}
