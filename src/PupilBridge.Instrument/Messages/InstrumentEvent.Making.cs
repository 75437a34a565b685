namespace PupilBridge.Instrument;

/// <content>How an instrument states what happened; boot and sequence are given by its link.</content>
public readonly partial record struct InstrumentEvent
{
    /// <summary>The mode or the block changed.</summary>
    /// <param name="tick">When.</param>
    /// <param name="mode">The mode now.</param>
    /// <param name="block">The block now, or none.</param>
    /// <param name="cause">By hand or by itself.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent ModeChanged(Tick tick, InstrumentMode mode, Block block, ModeCause cause) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.ModeChanged,
            Mode = mode,
            Block = block,
            Cause = cause,
        };

    /// <summary>A mark key was pressed at an edge.</summary>
    /// <param name="tick">When.</param>
    /// <param name="eye">Of which eye.</param>
    /// <param name="edge">At which edge.</param>
    /// <param name="position">Where that eye's scale stood.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent EdgeMarked(Tick tick, Eye eye, PupilEdge edge, Micrometres position) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.EdgeMarked,
            Eye = eye,
            Edge = edge,
            Position = position,
        };

    /// <summary>A scale came to rest.</summary>
    /// <param name="tick">When.</param>
    /// <param name="eye">Of which eye.</param>
    /// <param name="position">Where.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent ScaleAtRest(Tick tick, Eye eye, Micrometres position) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.ScaleAtRest,
            Eye = eye,
            Position = position,
        };

    /// <summary>A lamp went on or off.</summary>
    /// <param name="tick">When.</param>
    /// <param name="eye">Of which eye.</param>
    /// <param name="on">Whether it is on now.</param>
    /// <param name="levelPercent">Percent of full output, 0 to 100.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent LampSwitched(Tick tick, Eye eye, bool on, int levelPercent) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.LampSwitched,
            Eye = eye,
            LampOn = on,
            LampLevelPercent = levelPercent,
        };

    /// <summary>The instrument's own light meter read the output of a burning lamp.</summary>
    /// <param name="tick">When.</param>
    /// <param name="eye">The eye whose lamp it is.</param>
    /// <param name="millilux">Illuminance at the meter, in thousandths of a lux, 0 to 999,999,999.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent LampOutput(Tick tick, Eye eye, int millilux) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.LampOutput,
            Eye = eye,
            LampMillilux = millilux,
        };

    /// <summary>The sensor's reading of the light in the room.</summary>
    /// <param name="tick">When.</param>
    /// <param name="millilux">Thousandths of a lux, 0 to 999,999,999.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent RoomMeasured(Tick tick, int millilux) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.RoomLight,
            Room = RoomLightLevel.Measured,
            RoomMillilux = millilux,
        };

    /// <summary>The light switch tells bright or dim.</summary>
    /// <param name="tick">When.</param>
    /// <param name="level">Bright or dim.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent RoomSwitched(Tick tick, RoomLightLevel level) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.RoomLight,
            Room = level,
        };

    /// <summary>The fixation target changed.</summary>
    /// <param name="tick">When.</param>
    /// <param name="fixation">Far or near.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent FixationChanged(Tick tick, FixationDistance fixation) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.FixationChanged,
            Fixation = fixation,
        };

    /// <summary>The viewing lens moved.</summary>
    /// <param name="tick">When.</param>
    /// <param name="lensIn">Whether it is in now.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent LensMoved(Tick tick, bool lensIn) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.LensMoved,
            LensIn = lensIn,
        };

    /// <summary>The instrument switches off; nothing follows in this boot.</summary>
    /// <param name="tick">When.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent SwitchedOff(Tick tick) =>
        new() { Tick = tick, Kind = InstrumentEventKind.SwitchedOff };

    /// <summary>The instrument found a fault in itself.</summary>
    /// <param name="tick">When.</param>
    /// <param name="code">The maker's number, 1 to 9999.</param>
    /// <param name="text">The instrument's words, at most 40 characters.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent FaultReported(Tick tick, int code, string text) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.FaultReported,
            FaultCode = code,
            FaultText = AsciiText.From(text),
        };

    /// <summary>The memory lost events; the event's own number will be that of the last one lost.</summary>
    /// <param name="tick">The tick of the last one lost.</param>
    /// <param name="firstLost">The number of the first one lost.</param>
    /// <returns>The event, without boot and sequence.</returns>
    public static InstrumentEvent EventsLost(Tick tick, long firstLost) =>
        new()
        {
            Tick = tick,
            Kind = InstrumentEventKind.EventsLost,
            FirstLost = firstLost,
        };
}
