namespace PupilBridge.Ports;

/// <summary>A serial port that is present.</summary>
public sealed record FoundPort
{
    /// <summary>
    /// The path to write into a configuration: it stays the same when the adapter is replugged, as far as the system
    /// offers such a name (by-id, else by-path, else the device itself).
    /// </summary>
    public required string StableName { get; init; }

    /// <summary>The device file now, for example <c>/dev/ttyUSB0</c>; it may change at the next replug.</summary>
    public required string Device { get; init; }

    /// <summary>The USB adapter behind it; null if there is none, or the system does not say.</summary>
    public UsbAdapter? Usb { get; init; }

    /// <summary>Who holds it, as far as this account may see; null if nobody is seen.</summary>
    public PortHolder? Holder { get; init; }

    /// <summary>Whether this account may open it; says nothing about whether it is in use.</summary>
    public required bool MayOpen { get; init; }

    /// <summary>Why not and what to do, for a person; null if it may be opened.</summary>
    public string? WhyNot { get; init; }
}
