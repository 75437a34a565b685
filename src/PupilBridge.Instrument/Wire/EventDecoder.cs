namespace PupilBridge.Instrument.Wire;

/// <summary>
/// Reads the fields of an <c>EV</c> line. Boot, sequence, tick and kind must be readable; beyond them a kind or a field that
/// this version does not know makes the event unknown or unreadable, never faulty: a host that refused it would ask for it
/// again for ever, and the newer instrument could never go on.
/// </summary>
internal static class EventDecoder
{
    internal static InstrumentEvent Read(ref FieldReader reader)
    {
        var boot = reader.Boot();
        var sequence = reader.Number(1, WireLimits.MaxSequence);
        var tick = reader.Tick();
        var kind = reader.Word();
        if (kind.IsEmpty)
            reader.Fail();
        if (!reader.Ok)
            return default;
        var known = ReadKind(ref reader, kind, sequence) with { Boot = boot, Sequence = sequence, Tick = tick };
        return reader.Ok ? known : Unreadable(ref reader, boot, sequence, tick);
    }

    private static InstrumentEvent Unreadable(ref FieldReader reader, BootNumber boot, long sequence, Tick tick)
    {
        reader.Forgive();
        return new InstrumentEvent
        {
            Kind = InstrumentEventKind.Unreadable,
            Boot = boot,
            Sequence = sequence,
            Tick = tick,
        };
    }

    private static InstrumentEvent ReadKind(ref FieldReader reader, ReadOnlySpan<byte> kind, long sequence)
    {
        if (kind.SequenceEqual("LAMP"u8))
            return InstrumentEvent.LampSwitched(
                default,
                reader.Eye(),
                reader.Either("ON"u8, "OFF"u8),
                (int)reader.Number(0, 100)
            );
        if (kind.SequenceEqual("REST"u8))
            return InstrumentEvent.ScaleAtRest(default, reader.Eye(), reader.Position());
        if (kind.SequenceEqual("EDGE"u8))
            return InstrumentEvent.EdgeMarked(default, reader.Eye(), reader.Edge(), reader.Position());
        if (kind.SequenceEqual("MODE"u8))
            return InstrumentEvent.ModeChanged(default, reader.Mode(), reader.Block(), ReadCause(ref reader));
        if (kind.SequenceEqual("ROOM"u8))
            return ReadRoom(ref reader);
        if (kind.SequenceEqual("FIX"u8))
            return InstrumentEvent.FixationChanged(default, ReadFixation(ref reader));
        if (kind.SequenceEqual("LENS"u8))
            return InstrumentEvent.LensMoved(default, reader.Either("IN"u8, "OUT"u8));
        if (kind.SequenceEqual("OUTPUT"u8))
            return InstrumentEvent.LampOutput(default, reader.Eye(), (int)reader.Number(0, WireLimits.MaxMillilux));
        if (kind.SequenceEqual("OFF"u8))
            return InstrumentEvent.SwitchedOff(default);
        if (kind.SequenceEqual("FAULT"u8))
            return new InstrumentEvent
            {
                Kind = InstrumentEventKind.FaultReported,
                FaultCode = (int)reader.Number(1, WireLimits.MaxFaultCode),
                FaultText = reader.Text(0, AsciiText.MaxLength),
            };
        return kind.SequenceEqual("GAP"u8) ? InstrumentEvent.EventsLost(default, reader.Number(1, sequence)) : default;
    }

    private static ModeCause ReadCause(ref FieldReader reader) =>
        reader.Either("DIAL"u8, "SELF"u8) ? ModeCause.Dial : ModeCause.Self;

    private static FixationDistance ReadFixation(ref FieldReader reader) =>
        reader.Either("FAR"u8, "NEAR"u8) ? FixationDistance.Far : FixationDistance.Near;

    private static InstrumentEvent ReadRoom(ref FieldReader reader)
    {
        var word = reader.Word();
        if (word.SequenceEqual("LUX"u8))
            return InstrumentEvent.RoomMeasured(default, (int)reader.Number(0, WireLimits.MaxMillilux));
        if (word.SequenceEqual("BRIGHT"u8))
            return InstrumentEvent.RoomSwitched(default, RoomLightLevel.Bright);
        if (!word.SequenceEqual("DIM"u8))
            reader.Fail();
        return InstrumentEvent.RoomSwitched(default, RoomLightLevel.Dim);
    }
}
