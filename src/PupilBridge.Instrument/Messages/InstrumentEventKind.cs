namespace PupilBridge.Instrument;

/// <summary>What an event tells. The default is an event of a kind that this version does not know.</summary>
public enum InstrumentEventKind : byte
{
    /// <summary>A kind that this version does not know; kept verbatim and acknowledged.</summary>
    Unknown = 0,

    /// <summary>A known kind whose fields this version cannot read; kept verbatim and acknowledged.</summary>
    Unreadable = 1,

    /// <summary>The mode or block changed (<c>MODE</c>).</summary>
    ModeChanged = 2,

    /// <summary>A mark key was pressed at an edge of the pupil (<c>EDGE</c>).</summary>
    EdgeMarked = 3,

    /// <summary>A scale came to rest (<c>REST</c>).</summary>
    ScaleAtRest = 4,

    /// <summary>The lamp of one eye went on or off (<c>LAMP</c>).</summary>
    LampSwitched = 5,

    /// <summary>The light in the room (<c>ROOM</c>).</summary>
    RoomLight = 6,

    /// <summary>The fixation target went far or near (<c>FIX</c>).</summary>
    FixationChanged = 7,

    /// <summary>The viewing lens was swung in or out (<c>LENS</c>).</summary>
    LensMoved = 8,

    /// <summary>The instrument switched off: the last event of a boot (<c>OFF</c>).</summary>
    SwitchedOff = 9,

    /// <summary>The instrument found a fault in itself (<c>FAULT</c>).</summary>
    FaultReported = 10,

    /// <summary>Events that the instrument's memory lost (<c>GAP</c>).</summary>
    EventsLost = 11,

    /// <summary>What the instrument's own light meter read at one of its lamps (<c>OUTPUT</c>).</summary>
    LampOutput = 12,
}

/// <summary>What moved the mode.</summary>
public enum ModeCause : byte
{
    /// <summary>Not said.</summary>
    None = 0,

    /// <summary>A hand on the dial (<c>DIAL</c>).</summary>
    Dial = 1,

    /// <summary>The sequence went on by itself (<c>SELF</c>).</summary>
    Self = 2,
}

/// <summary>How the light in the room was told.</summary>
public enum RoomLightLevel : byte
{
    /// <summary>Not said.</summary>
    None = 0,

    /// <summary>By a sensor, as an illuminance.</summary>
    Measured = 1,

    /// <summary>By a switch: bright.</summary>
    Bright = 2,

    /// <summary>By a switch: dim.</summary>
    Dim = 3,
}

/// <summary>Where the person examined looks.</summary>
public enum FixationDistance : byte
{
    /// <summary>Not said.</summary>
    None = 0,

    /// <summary>At the far target.</summary>
    Far = 1,

    /// <summary>At the near target.</summary>
    Near = 2,
}
