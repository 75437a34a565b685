using System.Collections.Immutable;

namespace PupilBridge.Instrument;

/// <summary>What an instrument can do beyond the least that every one can.</summary>
[Flags]
public enum InstrumentAbilities : ushort
{
    /// <summary>Nothing beyond the least.</summary>
    None = 0,

    /// <summary>It has mark keys, and tells edges (<c>M</c>).</summary>
    MarkKeys = 1,

    /// <summary>It measures the light in the room in lux (<c>L</c>).</summary>
    LightSensor = 2,

    /// <summary>A switch tells whether the room is bright or dim (<c>S</c>).</summary>
    LightSwitch = 4,

    /// <summary>It takes stimulus trains from the host (<c>P</c>).</summary>
    StimulusProfile = 8,

    /// <summary>It can switch itself off when asked to (<c>O</c>).</summary>
    SwitchOff = 16,

    /// <summary>It tells whether fixation is far or near (<c>F</c>).</summary>
    Fixation = 32,

    /// <summary>It tells whether the viewing lens is in (<c>V</c>).</summary>
    ViewingLens = 64,

    /// <summary>It has a battery and tells its charge (<c>B</c>).</summary>
    Battery = 128,

    /// <summary>It has a light meter at each lamp and tells what it reads (<c>G</c>).</summary>
    LampMeter = 256,
}

/// <summary>Where the positions of a scale grow towards.</summary>
public enum ScaleDirection : byte
{
    /// <summary>Not said.</summary>
    None = 0,

    /// <summary>Towards the nose (<c>IN</c>).</summary>
    Nasal = 1,

    /// <summary>Away from the nose (<c>OUT</c>).</summary>
    Temporal = 2,
}

/// <summary>One stop of the mode dial.</summary>
/// <param name="Index">Its place on the dial, from 1.</param>
/// <param name="Mode">What it asks of the instrument.</param>
/// <param name="Block">The block it stands for, or none.</param>
public readonly record struct DialStop(int Index, InstrumentMode Mode, Block Block);

/// <summary>One scale: where it rests, which way it counts, how finely, and from where to where.</summary>
/// <param name="Home">Where it rests between measurements.</param>
/// <param name="Direction">Whether positions grow towards the nose or away from it.</param>
/// <param name="Resolution">The step between two positions, 1 to 1,000 µm.</param>
/// <param name="Lowest">The lowest position it can reach.</param>
/// <param name="Highest">The highest position it can reach.</param>
public readonly record struct ScaleDescription(
    Micrometres Home,
    ScaleDirection Direction,
    Micrometres Resolution,
    Micrometres Lowest,
    Micrometres Highest
);

/// <summary>Who an instrument is: everything between its <c>ID</c> line and its second <c>SCALE</c> line.</summary>
public sealed record InstrumentIdentity
{
    /// <summary>The protocol version that the two sides speak from here on.</summary>
    public required int Version { get; init; }

    /// <summary>Its serial number: the same across ports and replugging.</summary>
    public required SerialNumber Serial { get; init; }

    /// <summary>The maker's name for this kind of instrument, 1 to 16 characters.</summary>
    public required string Model { get; init; }

    /// <summary>The version of its program, 1 to 10 characters.</summary>
    public required string Firmware { get; init; }

    /// <summary>The present boot.</summary>
    public required BootNumber Boot { get; init; }

    /// <summary>What it can do.</summary>
    public required InstrumentAbilities Abilities { get; init; }

    /// <summary>The stops of its dial, in order; 1 to 32.</summary>
    public required ImmutableArray<DialStop> Stops { get; init; }

    /// <summary>Its two scales.</summary>
    public required PerEye<ScaleDescription> Scales { get; init; }

    /// <summary>The highest event number acknowledged so far in this boot; 0 for none.</summary>
    public long Acknowledged { get; init; }

    /// <summary>The host that acknowledged it; the default if none did.</summary>
    public HostId AcknowledgedBy { get; init; }

    /// <summary>Whether it can do something.</summary>
    /// <param name="ability">One ability.</param>
    /// <returns>True if it declared it.</returns>
    public bool Can(InstrumentAbilities ability) => (Abilities & ability) == ability;
}
