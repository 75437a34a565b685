namespace PupilBridge.Instrument.Wire;

/// <summary>Writes the words of the protocol's vocabulary.</summary>
internal static class WordWriter
{
    internal static void Eye(this ref LineWriter writer, Eye eye) =>
        writer.Word(
            eye switch
            {
                Instrument.Eye.Right => "R"u8,
                Instrument.Eye.Left => "L"u8,
                _ => throw NoWord(nameof(eye), eye),
            }
        );

    internal static void Edge(this ref LineWriter writer, PupilEdge edge) =>
        writer.Word(
            edge switch
            {
                PupilEdge.Nasal => "N"u8,
                PupilEdge.Temporal => "T"u8,
                _ => throw NoWord(nameof(edge), edge),
            }
        );

    internal static void Mode(this ref LineWriter writer, InstrumentMode mode) =>
        writer.Word(
            mode switch
            {
                InstrumentMode.Idle => "IDLE"u8,
                InstrumentMode.Measure => "MEASURE"u8,
                InstrumentMode.Sequence => "SEQUENCE"u8,
                InstrumentMode.Hold => "HOLD"u8,
                _ => throw NoWord(nameof(mode), mode),
            }
        );

    internal static void Block(this ref LineWriter writer, Block block) =>
        writer.Word(
            block switch
            {
                Instrument.Block.None => "-"u8,
                Instrument.Block.Direct => "DIRECT"u8,
                Instrument.Block.SwingShort => "SWINGSHORT"u8,
                Instrument.Block.SwingLong => "SWINGLONG"u8,
                Instrument.Block.Near => "NEAR"u8,
                _ => throw NoWord(nameof(block), block),
            }
        );

    internal static void Answer(this ref LineWriter writer, CommandAnswer answer) =>
        writer.Word(
            answer switch
            {
                CommandAnswer.Ok => "OK"u8,
                CommandAnswer.Refused => "REFUSED"u8,
                CommandAnswer.Unknown => "UNKNOWN"u8,
                CommandAnswer.Busy => "BUSY"u8,
                _ => throw NoWord(nameof(answer), answer),
            }
        );

    internal static void Direction(this ref LineWriter writer, ScaleDirection direction) =>
        writer.Word(
            direction switch
            {
                ScaleDirection.Nasal => "IN"u8,
                ScaleDirection.Temporal => "OUT"u8,
                _ => throw NoWord(nameof(direction), direction),
            }
        );

    internal static void Abilities(this ref LineWriter writer, InstrumentAbilities abilities)
    {
        Span<byte> letters = stackalloc byte[FieldWords.AbilityLetters.Length];
        var count = 0;
        for (var bit = 0; bit < letters.Length; bit++)
        {
            if (((int)abilities >> bit & 1) == 1)
                letters[count++] = FieldWords.AbilityLetters[bit];
        }

        writer.Word(count == 0 ? "-"u8 : letters[..count]);
    }

    internal static void Position(this ref LineWriter writer, Micrometres position) =>
        writer.Number(position.Value, 0, WireLimits.MaxPositionMicrometres, nameof(position));

    internal static void Tick(this ref LineWriter writer, Tick tick) =>
        writer.Number(tick.Milliseconds, 0, long.MaxValue, nameof(tick));

    internal static void Version(this ref LineWriter writer, int version) =>
        writer.Number(version, 1, WireLimits.VersionCeiling, nameof(version));

    internal static ArgumentOutOfRangeException NoWord(string name, object value) =>
        new(name, value, "The protocol has no word for this value.");
}
