using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Simulator.Devices;

/// <summary>How one simulated instrument differs from its model. The default differs in nothing.</summary>
public sealed record InstrumentOptions
{
    /// <summary>How many unacknowledged events its memory holds, 2 or more.</summary>
    public int KeptCapacity { get; init; } = LinkTiming.LeastKept;

    /// <summary>Bytes that its line takes in a second; null for any number. The default is 115,200 baud.</summary>
    public int? BytesPerSecond { get; init; } = 11_520;

    /// <summary>
    /// What each lamp gives at full output by the meter at it, in millilux, 0 to 999,999,999; only a model with lamp meters
    /// tells it. The default is the same for both eyes.
    /// </summary>
    public PerEye<int> LampMillilux { get; init; } = new() { Right = 200_000, Left = 200_000 };

    /// <summary>How each scale misreads. The default is not at all.</summary>
    public PerEye<ScaleError> ScaleErrors { get; init; } = new() { Right = ScaleError.None, Left = ScaleError.None };

    /// <summary>The serial number that it claims in place of its own; null for its own.</summary>
    public SerialNumber? ClaimedSerial { get; init; }

    /// <summary>The lowest protocol version that it speaks.</summary>
    public int LowestVersion { get; init; } = WireLimits.LowestVersion;

    /// <summary>The highest protocol version that it speaks.</summary>
    public int HighestVersion { get; init; } = WireLimits.HighestVersion;
}
