using System.Buffers;

namespace PupilBridge.Instrument.Wire;

/// <summary>
/// Decodes the lines of an instrument: checks the CRC, reads and range-checks every field, allocates nothing, throws nothing.
/// Fields beyond the known ones are passed over.
/// </summary>
public static class InstrumentLineDecoder
{
    /// <summary>Decodes one line.</summary>
    /// <param name="content">The line without its LF; one CR at its end is passed over.</param>
    /// <param name="line">The line; a type that this version does not know comes back as such, and is no fault.</param>
    /// <param name="fault">What is wrong, if anything.</param>
    /// <returns>True if the line is well formed.</returns>
    public static bool TryDecode(ReadOnlySpan<byte> content, out InstrumentLine line, out LineFault fault)
    {
        var envelope = LineEnvelope.Open(content, out var body, out var crc);
        if (envelope != LineFaultKind.None)
        {
            line = default;
            fault = new LineFault(envelope, 0);
            return false;
        }

        var reader = new FieldReader(body);
        line = Read(ref reader, crc);
        fault = reader.Ok ? default : new LineFault(LineFaultKind.BadField, reader.FailedField);
        return reader.Ok;
    }

    /// <summary>Decodes one line that may lie across buffers.</summary>
    /// <param name="content">The line without its LF.</param>
    /// <param name="line">The line.</param>
    /// <param name="fault">What is wrong, if anything.</param>
    /// <returns>True if the line is well formed.</returns>
    public static bool TryDecode(in ReadOnlySequence<byte> content, out InstrumentLine line, out LineFault fault)
    {
        if (content.IsSingleSegment)
            return TryDecode(content.FirstSpan, out line, out fault);
        Span<byte> whole = stackalloc byte[WireLimits.MaxLineBytes];
        if (content.Length > whole.Length)
        {
            line = default;
            fault = new LineFault(LineFaultKind.TooLong, 0);
            return false;
        }

        content.CopyTo(whole);
        return TryDecode(whole[..(int)content.Length], out line, out fault);
    }

    private static InstrumentLine Read(ref FieldReader reader, uint crc)
    {
        var type = reader.Type;
        if (type.SequenceEqual("EV"u8))
            return new InstrumentLine(EventDecoder.Read(ref reader), crc);
        if (type.SequenceEqual("POS"u8))
            return new InstrumentLine(new LivePosition(reader.Eye(), reader.Position(), reader.Tick()), crc);
        if (type.SequenceEqual("BEAT"u8))
            return new InstrumentLine(ReadBeat(ref reader), crc);
        if (type.SequenceEqual("ID"u8))
            return new InstrumentLine(ReadIdentity(ref reader), crc);
        if (type.SequenceEqual("STOP"u8))
            return new InstrumentLine(ReadStop(ref reader), crc);
        if (type.SequenceEqual("SCALE"u8))
            return new InstrumentLine(ReadScale(ref reader), crc);
        if (type.SequenceEqual("DONE"u8))
            return new InstrumentLine(ReadReply(ref reader), crc);
        if (type.SequenceEqual("HELD"u8))
            return new InstrumentLine(
                new HeldByOther(reader.Host(), (int)reader.Number(0, WireLimits.MaxHeldSeconds)),
                crc
            );
        return type.SequenceEqual("NOVERSION"u8) ? new InstrumentLine(ReadVersions(ref reader), crc) : default;
    }

    private static Heartbeat ReadBeat(ref FieldReader reader)
    {
        var boot = reader.Boot();
        var tick = reader.Tick();
        var oldest = reader.Number(1, WireLimits.MaxSequence + 1);
        var last = reader.Number(0, WireLimits.MaxSequence);
        if (oldest > last + 1)
            reader.Fail();
        return new Heartbeat(boot, tick, oldest, last, (byte?)reader.NumberOrDash(0, 100));
    }

    private static IdentityHead ReadIdentity(ref FieldReader reader)
    {
        var version = reader.Version();
        var serial = reader.Serial();
        var model = reader.Text(1, WireLimits.MaxModelLength);
        var firmware = reader.Text(1, WireLimits.MaxFirmwareLength);
        var boot = reader.Boot();
        var abilities = reader.Abilities();
        var stops = (byte)reader.Number(1, WireLimits.MaxStops);
        var acknowledged = reader.Number(0, WireLimits.MaxSequence);
        var by = reader.HostOrDash();
        if (by.IsKnown != acknowledged > 0)
            reader.Fail();
        return new IdentityHead(version, serial, model, firmware, boot, abilities, stops, acknowledged, by);
    }

    private static DialStop ReadStop(ref FieldReader reader) =>
        new((int)reader.Number(1, WireLimits.MaxStops), reader.Mode(), reader.Block());

    private static EyeScale ReadScale(ref FieldReader reader)
    {
        var eye = reader.Eye();
        var home = reader.Position();
        var direction = reader.Either("IN"u8, "OUT"u8) ? ScaleDirection.Nasal : ScaleDirection.Temporal;
        var resolution = new Micrometres((int)reader.Number(1, WireLimits.MaxResolutionMicrometres));
        var lowest = reader.Position();
        var highest = reader.Position();
        if (lowest >= highest || home < lowest || home > highest)
            reader.Fail();
        return new EyeScale(eye, new ScaleDescription(home, direction, resolution, lowest, highest));
    }

    private static CommandReply ReadReply(ref FieldReader reader)
    {
        var host = reader.Host();
        var number = (uint)reader.Number(1, uint.MaxValue);
        var answer = reader.Answer();
        var reason = reader.HasMore ? reader.Text(0, AsciiText.MaxLength) : default;
        return new CommandReply(host, number, answer, reason);
    }

    private static VersionRange ReadVersions(ref FieldReader reader)
    {
        var lowest = reader.Version();
        var highest = reader.Version();
        if (lowest > highest)
            reader.Fail();
        return new VersionRange(lowest, highest);
    }
}
