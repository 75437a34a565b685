namespace PupilBridge.Instrument;

/// <summary>
/// One event that an instrument kept in its memory and sent: what happened, at which tick of its own clock, under which
/// number of the boot. It is flat: beside the first four members only those of its <see cref="Kind"/> carry a value, the
/// others hold their defaults. The exact bytes, extra fields included, are kept beside it.
/// </summary>
public readonly partial record struct InstrumentEvent
{
    /// <summary>The boot in which it happened.</summary>
    public BootNumber Boot { get; init; }

    /// <summary>Its number within the boot, 1 to 2^53; 0 as long as the instrument has given none.</summary>
    public long Sequence { get; init; }

    /// <summary>When it happened, by the instrument's own clock.</summary>
    public Tick Tick { get; init; }

    /// <summary>What happened.</summary>
    public InstrumentEventKind Kind { get; init; }

    /// <summary>Mode changed: what is asked of the instrument now; 0 for every other kind.</summary>
    public InstrumentMode Mode { get; init; }

    /// <summary>Mode changed: the block that runs now, or none.</summary>
    public Block Block { get; init; }

    /// <summary>Mode changed: by hand or by itself.</summary>
    public ModeCause Cause { get; init; }

    /// <summary>Edge, rest, lamp and lamp output: the eye; 0 for every other kind.</summary>
    public Eye Eye { get; init; }

    /// <summary>Edge: the nasal or the temporal one; 0 for every other kind.</summary>
    public PupilEdge Edge { get; init; }

    /// <summary>Edge and rest: the position of that eye's scale, 0 to 99,999 µm.</summary>
    public Micrometres Position { get; init; }

    /// <summary>Lamp: whether it is on now.</summary>
    public bool LampOn { get; init; }

    /// <summary>Lamp: the level in percent of full output, 0 to 100.</summary>
    public int LampLevelPercent { get; init; }

    /// <summary>Lamp output: what the meter at that lamp read, in thousandths of a lux, 0 to 999,999,999.</summary>
    public int LampMillilux { get; init; }

    /// <summary>Room light: how it was told.</summary>
    public RoomLightLevel Room { get; init; }

    /// <summary>Room light by sensor: the illuminance in thousandths of a lux, 0 to 999,999,999.</summary>
    public int RoomMillilux { get; init; }

    /// <summary>Fixation changed: far or near.</summary>
    public FixationDistance Fixation { get; init; }

    /// <summary>Lens moved: whether it is in the examiner's view now.</summary>
    public bool LensIn { get; init; }

    /// <summary>Fault: its number by the maker's list, 1 to 9999.</summary>
    public int FaultCode { get; init; }

    /// <summary>Fault: the instrument's own words, at most 40 characters.</summary>
    public AsciiText FaultText { get; init; }

    /// <summary>Events lost: the first one; this event's own number is the last one.</summary>
    public long FirstLost { get; init; }
}
