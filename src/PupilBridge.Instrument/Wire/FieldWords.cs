namespace PupilBridge.Instrument.Wire;

/// <summary>The words of the protocol's vocabulary.</summary>
internal static class FieldWords
{
    internal static Eye Eye(this ref FieldReader reader)
    {
        var word = reader.Word();
        if (word.SequenceEqual("R"u8))
            return Instrument.Eye.Right;
        if (word.SequenceEqual("L"u8))
            return Instrument.Eye.Left;
        reader.Fail();
        return default;
    }

    internal static PupilEdge Edge(this ref FieldReader reader)
    {
        var word = reader.Word();
        if (word.SequenceEqual("N"u8))
            return PupilEdge.Nasal;
        if (word.SequenceEqual("T"u8))
            return PupilEdge.Temporal;
        reader.Fail();
        return default;
    }

    internal static InstrumentMode Mode(this ref FieldReader reader)
    {
        var word = reader.Word();
        if (word.SequenceEqual("IDLE"u8))
            return InstrumentMode.Idle;
        if (word.SequenceEqual("MEASURE"u8))
            return InstrumentMode.Measure;
        if (word.SequenceEqual("SEQUENCE"u8))
            return InstrumentMode.Sequence;
        if (word.SequenceEqual("HOLD"u8))
            return InstrumentMode.Hold;
        reader.Fail();
        return default;
    }

    internal static Block Block(this ref FieldReader reader)
    {
        var word = reader.Word();
        if (word.SequenceEqual("-"u8))
            return Instrument.Block.None;
        if (word.SequenceEqual("DIRECT"u8))
            return Instrument.Block.Direct;
        if (word.SequenceEqual("SWINGSHORT"u8))
            return Instrument.Block.SwingShort;
        if (word.SequenceEqual("SWINGLONG"u8))
            return Instrument.Block.SwingLong;
        if (word.SequenceEqual("NEAR"u8))
            return Instrument.Block.Near;
        reader.Fail();
        return default;
    }

    /// <summary>One of two words: true for the first, false for the second.</summary>
    internal static bool Either(this ref FieldReader reader, ReadOnlySpan<byte> yes, ReadOnlySpan<byte> no)
    {
        var word = reader.Word();
        if (word.SequenceEqual(yes))
            return true;
        if (!word.SequenceEqual(no))
            reader.Fail();
        return false;
    }

    internal static Micrometres Position(this ref FieldReader reader) =>
        new((int)reader.Number(0, WireLimits.MaxPositionMicrometres));

    internal static Tick Tick(this ref FieldReader reader) => new(reader.Number(0, long.MaxValue));

    internal static BootNumber Boot(this ref FieldReader reader) => new(reader.Hex16());

    internal static byte Version(this ref FieldReader reader) => (byte)reader.Number(1, WireLimits.VersionCeiling);

    /// <summary>A number, or null for a dash.</summary>
    internal static long? NumberOrDash(this ref FieldReader reader, long lowest, long highest)
    {
        if (!reader.NextIsDash)
            return reader.Number(lowest, highest);
        reader.Word();
        return null;
    }

    /// <summary>The number of a host, or none for a dash.</summary>
    internal static HostId HostOrDash(this ref FieldReader reader)
    {
        if (!reader.NextIsDash)
            return reader.Host();
        reader.Word();
        return default;
    }

    internal static AsciiText Serial(this ref FieldReader reader)
    {
        var word = reader.Word();
        var clean = word.Length is >= 1 and <= SerialNumber.MaxLength;
        foreach (var c in word)
            clean &= char.IsAsciiLetterOrDigit((char)c) || c is (byte)'-' or (byte)'.' or (byte)'_';
        if (clean)
            return AsciiText.FromChecked(word);
        reader.Fail();
        return default;
    }

    /// <summary>Letters in any order; those that this version does not know are passed over.</summary>
    internal static InstrumentAbilities Abilities(this ref FieldReader reader)
    {
        var word = reader.Word();
        var abilities = InstrumentAbilities.None;
        if (word.SequenceEqual("-"u8))
            return abilities;
        if (word.Length is 0 or > WireLimits.MaxAbilities || word.ContainsAnyExceptInRange((byte)'A', (byte)'Z'))
            reader.Fail();
        foreach (var letter in word)
        {
            var place = AbilityLetters.IndexOf(letter);
            if (place >= 0)
                abilities |= (InstrumentAbilities)(1 << place);
        }

        return abilities;
    }

    /// <summary>The letter of each ability, in the order of its bits.</summary>
    internal static ReadOnlySpan<byte> AbilityLetters => "MLSPOFVBG"u8;

    internal static CommandAnswer Answer(this ref FieldReader reader)
    {
        var word = reader.Word();
        if (word.SequenceEqual("OK"u8))
            return CommandAnswer.Ok;
        if (word.SequenceEqual("REFUSED"u8))
            return CommandAnswer.Refused;
        if (word.SequenceEqual("UNKNOWN"u8))
            return CommandAnswer.Unknown;
        if (word.SequenceEqual("BUSY"u8))
            return CommandAnswer.Busy;
        reader.Fail();
        return default;
    }
}
