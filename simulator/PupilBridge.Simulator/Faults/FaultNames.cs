namespace PupilBridge.Simulator.Faults;

/// <summary>The names by which faults are asked for.</summary>
public static class FaultNames
{
    /// <summary>Flipped bits.</summary>
    public const string Flip = "flip";

    /// <summary>Dropped bytes.</summary>
    public const string Drop = "drop";

    /// <summary>Doubled bytes.</summary>
    public const string Doubled = "double";

    /// <summary>Delayed bytes.</summary>
    public const string Delay = "delay";

    /// <summary>Split reads.</summary>
    public const string Split = "split";

    /// <summary>Line noise.</summary>
    public const string Noise = "noise";

    /// <summary>Binary garbage.</summary>
    public const string Garbage = "garbage";

    /// <summary>Over-long lines.</summary>
    public const string Overlong = "overlong";

    /// <summary>A wrong baud rate for a while.</summary>
    public const string Baud = "baud";

    /// <summary>Unplug and replug.</summary>
    public const string Unplug = "unplug";

    /// <summary>Reboot in mid exam.</summary>
    public const string Reboot = "reboot";

    /// <summary>Switched off, and on again later.</summary>
    public const string PowerOff = "power-off";

    /// <summary>The tick clock runs fast or slow.</summary>
    public const string Drift = "drift";

    /// <summary>The memory for unacknowledged events overflows.</summary>
    public const string Overflow = "overflow";

    /// <summary>A scale that sticks.</summary>
    public const string StuckScale = "stuck-scale";

    /// <summary>Claims another instrument's serial number.</summary>
    public const string SerialClash = "serial-clash";

    /// <summary>Speaks only a newer protocol version.</summary>
    public const string NewerVersion = "newer-version";

    /// <summary>Sends a kind of event that this version does not know.</summary>
    public const string UnknownEvent = "unknown-event";
}
