namespace PupilBridge.Instrument.Wire;

/// <summary>Writes <c>EV</c> lines.</summary>
internal static class EventEncoder
{
    internal static int Encode(in InstrumentEvent happened, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "EV"u8);
        writer.Hex16(happened.Boot.Value);
        writer.Number(happened.Sequence, 1, WireLimits.MaxSequence, nameof(happened.Sequence));
        writer.Tick(happened.Tick);
        WriteKind(ref writer, happened);
        return writer.End();
    }

    private static void WriteKind(ref LineWriter writer, in InstrumentEvent happened)
    {
        switch (happened.Kind)
        {
            case InstrumentEventKind.ModeChanged:
                writer.Word("MODE"u8);
                writer.Mode(happened.Mode);
                writer.Block(happened.Block);
                writer.Word(CauseWord(happened.Cause));
                break;
            case InstrumentEventKind.EdgeMarked:
                writer.Word("EDGE"u8);
                writer.Eye(happened.Eye);
                writer.Edge(happened.Edge);
                writer.Position(happened.Position);
                break;
            case InstrumentEventKind.ScaleAtRest:
                writer.Word("REST"u8);
                writer.Eye(happened.Eye);
                writer.Position(happened.Position);
                break;
            case InstrumentEventKind.LampSwitched:
                writer.Word("LAMP"u8);
                writer.Eye(happened.Eye);
                writer.Word(happened.LampOn ? "ON"u8 : "OFF"u8);
                writer.Number(happened.LampLevelPercent, 0, 100, nameof(happened.LampLevelPercent));
                break;
            default:
                WriteRarerKind(ref writer, happened);
                break;
        }
    }

    private static void WriteRarerKind(ref LineWriter writer, in InstrumentEvent happened)
    {
        switch (happened.Kind)
        {
            case InstrumentEventKind.RoomLight:
                WriteRoom(ref writer, happened);
                break;
            case InstrumentEventKind.FixationChanged:
                writer.Word("FIX"u8);
                writer.Word(FixationWord(happened.Fixation));
                break;
            case InstrumentEventKind.LensMoved:
                writer.Word("LENS"u8);
                writer.Word(happened.LensIn ? "IN"u8 : "OUT"u8);
                break;
            case InstrumentEventKind.LampOutput:
                writer.Word("OUTPUT"u8);
                writer.Eye(happened.Eye);
                writer.Number(happened.LampMillilux, 0, WireLimits.MaxMillilux, nameof(happened.LampMillilux));
                break;
            case InstrumentEventKind.SwitchedOff:
                writer.Word("OFF"u8);
                break;
            case InstrumentEventKind.FaultReported:
                writer.Word("FAULT"u8);
                writer.Number(happened.FaultCode, 1, WireLimits.MaxFaultCode, nameof(happened.FaultCode));
                writer.Text(happened.FaultText, 0, AsciiText.MaxLength, nameof(happened.FaultText));
                break;
            case InstrumentEventKind.EventsLost:
                writer.Word("GAP"u8);
                writer.Number(happened.FirstLost, 1, happened.Sequence, nameof(happened.FirstLost));
                break;
            default:
                throw WordWriter.NoWord(nameof(happened), happened.Kind);
        }
    }

    private static void WriteRoom(ref LineWriter writer, in InstrumentEvent happened)
    {
        writer.Word("ROOM"u8);
        switch (happened.Room)
        {
            case RoomLightLevel.Measured:
                writer.Word("LUX"u8);
                writer.Number(happened.RoomMillilux, 0, WireLimits.MaxMillilux, nameof(happened.RoomMillilux));
                break;
            case RoomLightLevel.Bright:
                writer.Word("BRIGHT"u8);
                break;
            case RoomLightLevel.Dim:
                writer.Word("DIM"u8);
                break;
            default:
                throw WordWriter.NoWord(nameof(happened), happened.Room);
        }
    }

    private static ReadOnlySpan<byte> CauseWord(ModeCause cause) =>
        cause switch
        {
            ModeCause.Dial => "DIAL"u8,
            ModeCause.Self => "SELF"u8,
            _ => throw WordWriter.NoWord(nameof(cause), cause),
        };

    private static ReadOnlySpan<byte> FixationWord(FixationDistance fixation) =>
        fixation switch
        {
            FixationDistance.Far => "FAR"u8,
            FixationDistance.Near => "NEAR"u8,
            _ => throw WordWriter.NoWord(nameof(fixation), fixation),
        };
}
