namespace PupilBridge.Instrument.Wire;

/// <summary>Decodes the lines of a host, as an instrument does: same rules as <see cref="InstrumentLineDecoder"/>.</summary>
public static class HostLineDecoder
{
    /// <summary>Decodes one line.</summary>
    /// <param name="content">The line without its LF; one CR at its end is passed over.</param>
    /// <param name="line">The line; a type that this version does not know comes back as such, and is no fault.</param>
    /// <param name="fault">What is wrong, if anything.</param>
    /// <returns>True if the line is well formed.</returns>
    public static bool TryDecode(ReadOnlySpan<byte> content, out HostLine line, out LineFault fault)
    {
        line = default;
        var envelope = LineEnvelope.Open(content, out var body, out _);
        if (envelope != LineFaultKind.None)
        {
            fault = new LineFault(envelope, 0);
            return false;
        }

        var reader = new FieldReader(body);
        line = Read(ref reader);
        fault = reader.Ok ? default : new LineFault(LineFaultKind.BadField, reader.FailedField);
        return reader.Ok;
    }

    private static HostLine Read(ref FieldReader reader)
    {
        var type = reader.Type;
        if (type.SequenceEqual("ACK"u8))
            return HostLine.Ack(reader.Host(), reader.Boot(), reader.Number(0, WireLimits.MaxSequence));
        if (type.SequenceEqual("RESEND"u8))
            return HostLine.Resend(reader.Host(), reader.Boot(), reader.Number(1, WireLimits.MaxSequence));
        if (type.SequenceEqual("WHO"u8))
            return ReadGreeting(ref reader);
        if (type.SequenceEqual("TAKE"u8))
            return ReadGreeting(ref reader) with { Kind = HostLineKind.Take };
        return type.SequenceEqual("CMD"u8) ? ReadCommand(ref reader) : default;
    }

    private static HostLine ReadGreeting(ref FieldReader reader)
    {
        var host = reader.Host();
        var lowest = reader.Version();
        var highest = reader.Version();
        if (lowest > highest)
            reader.Fail();
        return HostLine.Who(host, lowest, highest);
    }

    private static HostLine ReadCommand(ref FieldReader reader)
    {
        var host = reader.Host();
        var number = (uint)reader.Number(1, uint.MaxValue);
        var word = reader.Word();
        if (word.IsEmpty)
            reader.Fail();
        if (!reader.Ok)
            return default;
        var command = default(InstrumentCommand);
        if (word.SequenceEqual("OFF"u8))
            command = InstrumentCommand.Off;
        else if (word.SequenceEqual("TRAIN"u8))
            command = ReadTrain(ref reader);
        return HostLine.Ask(host, number, command);
    }

    // A train that cannot be read still has a number, and the host waits for its reply.
    private static InstrumentCommand ReadTrain(ref FieldReader reader)
    {
        var block = reader.Block();
        if (block == Block.None)
            reader.Fail();
        var train = InstrumentCommand.Train(
            block,
            (int)reader.Number(1, WireLimits.MaxStimuli),
            (int)reader.Number(1, WireLimits.MaxTrainMilliseconds),
            (int)reader.Number(0, WireLimits.MaxTrainMilliseconds)
        );
        if (reader.Ok)
            return train;
        reader.Forgive();
        return default(InstrumentCommand) with { Kind = InstrumentCommandKind.Unreadable };
    }
}
