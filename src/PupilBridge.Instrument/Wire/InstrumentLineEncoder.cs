namespace PupilBridge.Instrument.Wire;

/// <summary>Writes the lines of an instrument.</summary>
public static class InstrumentLineEncoder
{
    /// <summary>Writes one line, its LF included.</summary>
    /// <param name="line">What to say.</param>
    /// <param name="destination">Room for at least <see cref="WireLimits.MaxLineBytes"/> bytes.</param>
    /// <returns>The number of bytes written.</returns>
    /// <exception cref="ArgumentException">The buffer is too short, or a value has no place on the line.</exception>
    public static int Encode(in InstrumentLine line, Span<byte> destination) =>
        line.Kind switch
        {
            InstrumentLineKind.Identity => Encode(line.Identity, destination),
            InstrumentLineKind.Stop => Encode(line.Stop, destination),
            InstrumentLineKind.Scale => Encode(line.Scale, destination),
            InstrumentLineKind.Event => EventEncoder.Encode(line.Event, destination),
            InstrumentLineKind.Position => Encode(line.Position, destination),
            InstrumentLineKind.Beat => Encode(line.Beat, destination),
            InstrumentLineKind.Reply => Encode(line.Reply, destination),
            InstrumentLineKind.Held => Encode(line.Held, destination),
            InstrumentLineKind.NoVersion => Encode(line.Versions, destination),
            _ => throw WordWriter.NoWord(nameof(line), line.Kind),
        };

    private static int Encode(in IdentityHead head, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "ID"u8);
        writer.Version(head.Version);
        writer.Text(head.Serial, 1, SerialNumber.MaxLength, nameof(head.Serial));
        writer.Text(head.Model, 1, WireLimits.MaxModelLength, nameof(head.Model));
        writer.Text(head.Firmware, 1, WireLimits.MaxFirmwareLength, nameof(head.Firmware));
        writer.Hex16(head.Boot.Value);
        writer.Abilities(head.Abilities);
        writer.Number(head.StopCount, 1, WireLimits.MaxStops, nameof(head.StopCount));
        writer.Number(head.Acknowledged, 0, WireLimits.MaxSequence, nameof(head.Acknowledged));
        if (head.Acknowledged == 0)
            writer.Word("-"u8);
        else
            writer.Host(head.AcknowledgedBy);
        return writer.End();
    }

    private static int Encode(DialStop stop, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "STOP"u8);
        writer.Number(stop.Index, 1, WireLimits.MaxStops, nameof(stop.Index));
        writer.Mode(stop.Mode);
        writer.Block(stop.Block);
        return writer.End();
    }

    private static int Encode(EyeScale value, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "SCALE"u8);
        writer.Eye(value.Eye);
        writer.Position(value.Scale.Home);
        writer.Direction(value.Scale.Direction);
        writer.Number(
            value.Scale.Resolution.Value,
            1,
            WireLimits.MaxResolutionMicrometres,
            nameof(value.Scale.Resolution)
        );
        writer.Position(value.Scale.Lowest);
        writer.Position(value.Scale.Highest);
        return writer.End();
    }

    private static int Encode(LivePosition position, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "POS"u8);
        writer.Eye(position.Eye);
        writer.Position(position.Position);
        writer.Tick(position.Tick);
        return writer.End();
    }

    private static int Encode(Heartbeat beat, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "BEAT"u8);
        writer.Hex16(beat.Boot.Value);
        writer.Tick(beat.Tick);
        writer.Number(beat.OldestKept, 1, beat.Last + 1, nameof(beat.OldestKept));
        writer.Number(beat.Last, 0, WireLimits.MaxSequence, nameof(beat.Last));
        if (beat.BatteryPercent is { } percent)
            writer.Number(percent, 0, 100, nameof(beat.BatteryPercent));
        else
            writer.Word("-"u8);
        return writer.End();
    }

    private static int Encode(CommandReply reply, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "DONE"u8);
        writer.Host(reply.Host);
        writer.Number(reply.Number, 1, uint.MaxValue, nameof(reply.Number));
        writer.Answer(reply.Answer);
        if (reply.Reason.Length > 0)
            writer.Text(reply.Reason, 1, AsciiText.MaxLength, nameof(reply.Reason));
        return writer.End();
    }

    private static int Encode(HeldByOther held, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "HELD"u8);
        writer.Host(held.Holder);
        writer.Number(held.SecondsSinceHeard, 0, WireLimits.MaxHeldSeconds, nameof(held.SecondsSinceHeard));
        return writer.End();
    }

    private static int Encode(VersionRange versions, Span<byte> destination)
    {
        var writer = new LineWriter(destination, "NOVERSION"u8);
        writer.Version(versions.Lowest);
        writer.Number(versions.Highest, versions.Lowest, WireLimits.VersionCeiling, nameof(versions.Highest));
        return writer.End();
    }
}
