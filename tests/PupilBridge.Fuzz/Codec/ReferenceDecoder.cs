namespace PupilBridge.Fuzz.Codec;

/// <summary>
/// A receiver written the plain way from docs/protocol.md, sections 4 to 7, 17 and 19, and from nothing else: cut at the commas, look at
/// field after field. It shares no code with the product.
/// </summary>
internal static class ReferenceDecoder
{
    private const ulong MaxSequence = 9_007_199_254_740_992;
    private const ulong MaxTick = 9_223_372_036_854_775_807;
    private const ulong MaxPosition = 99_999;

    /// <summary>The line without a CR at its end, and what stands before the star.</summary>
    public static ReferenceKind Open(ReadOnlySpan<byte> line, out ReadOnlySpan<byte> body)
    {
        body = default;
        if (line.Length > 0 && line[^1] == 13)
            line = line[..^1];
        if (line.Length > 119)
            return ReferenceKind.TooLong;
        if (line.Length < 10 || line[^9] != '*')
            return ReferenceKind.NoCheck;
        Span<byte> digits = stackalloc byte[8];
        ReferenceCrc.Write(ReferenceCrc.Of(line[..^9]), digits);
        foreach (var c in line[^8..])
        {
            if ("0123456789ABCDEF"u8.IndexOf(c) < 0)
                return ReferenceKind.NoCheck;
        }

        if (!digits.SequenceEqual(line[^8..]))
            return ReferenceKind.BadCheck;
        body = line[..^9];
        foreach (var c in body)
        {
            if (c is < 0x20 or > 0x7E or (byte)'*')
                return ReferenceKind.ForbiddenByte;
        }

        return ReferenceKind.Known;
    }

    /// <summary>A line of an instrument, after its envelope.</summary>
    public static ReferenceVerdict OfInstrument(scoped in ReferenceFields f)
    {
        if (f.Is(0, "EV"u8))
            return Event(f);
        if (f.Is(0, "POS"u8))
            return Known(3, f.IsOneOf(1, "R L"u8) && f.IsNumber(2, 0, MaxPosition) && f.IsNumber(3, 0, MaxTick));
        if (f.Is(0, "BEAT"u8))
            return Known(5, Beat(f));
        if (f.Is(0, "ID"u8))
            return Known(9, Identity(f));
        if (f.Is(0, "STOP"u8))
            return Known(3, f.IsNumber(1, 1, 32) && IsMode(f, 2) && IsBlock(f, 3));
        if (f.Is(0, "SCALE"u8))
            return Known(6, Scale(f));
        if (f.Is(0, "HELD"u8))
            return Known(2, f.IsHost(1) && f.IsNumber(2, 0, 999_999));
        if (f.Is(0, "NOVERSION"u8))
            return Known(2, f.IsNumber(1, 1, 99) && f.IsNumber(2, f.Number(1) ?? 0, 99));
        if (!f.Is(0, "DONE"u8))
            return new(ReferenceKind.UnknownType, 0);
        var replied = f.IsHost(1) && f.IsNumber(2, 1, uint.MaxValue) && f.IsOneOf(3, "OK REFUSED UNKNOWN BUSY"u8);
        // An empty reason is none.
        return Known(f[4].Length > 0 ? 4 : 3, replied && (f.Count < 5 || f.IsText(4, 0, 40)));
    }

    /// <summary>A line of a host, after its envelope.</summary>
    public static ReferenceVerdict OfHost(scoped in ReferenceFields f)
    {
        if (f.Is(0, "WHO"u8) || f.Is(0, "TAKE"u8))
            return Known(3, f.IsHost(1) && f.IsNumber(2, 1, 99) && f.IsNumber(3, f.Number(2) ?? 0, 99));
        if (f.Is(0, "ACK"u8))
            return Known(3, f.IsHost(1) && f.IsHex(2, 16) && f.IsNumber(3, 0, MaxSequence));
        if (f.Is(0, "RESEND"u8))
            return Known(3, f.IsHost(1) && f.IsHex(2, 16) && f.IsNumber(3, 1, MaxSequence));
        if (!f.Is(0, "CMD"u8))
            return new(ReferenceKind.UnknownType, 0);
        if (!f.IsHost(1) || !f.IsNumber(2, 1, uint.MaxValue) || f[3].IsEmpty)
            return new(ReferenceKind.BadField, 0);
        if (f.Is(3, "OFF"u8))
            return new(ReferenceKind.Known, 3);
        var train =
            f.Is(3, "TRAIN"u8)
            && f.IsOneOf(4, "DIRECT SWINGSHORT SWINGLONG NEAR"u8)
            && f.IsNumber(5, 1, 99)
            && f.IsNumber(6, 1, 60_000)
            && f.IsNumber(7, 0, 60_000);
        return train ? new(ReferenceKind.Known, 7) : new(ReferenceKind.UnknownCommand, 2);
    }

    private static ReferenceVerdict Event(scoped in ReferenceFields f)
    {
        if (!f.IsHex(1, 16) || !f.IsNumber(2, 1, MaxSequence) || !f.IsNumber(3, 0, MaxTick) || f[4].IsEmpty)
            return new(ReferenceKind.BadField, 0);
        var (known, fields, fits) = EventKind(f);
        return !known ? new(ReferenceKind.UnknownEvent, 3)
            : fits ? new(ReferenceKind.Known, 4 + fields)
            : new(ReferenceKind.UnreadableEvent, 3);
    }

    private static (bool Known, int Fields, bool Fits) EventKind(scoped in ReferenceFields f)
    {
        var isEye = f.IsOneOf(5, "R L"u8);
        if (f.Is(4, "MODE"u8))
            return (true, 3, IsMode(f, 5) && IsBlock(f, 6) && f.IsOneOf(7, "DIAL SELF"u8));
        if (f.Is(4, "EDGE"u8))
            return (true, 3, isEye && f.IsOneOf(6, "N T"u8) && f.IsNumber(7, 0, MaxPosition));
        if (f.Is(4, "REST"u8))
            return (true, 2, isEye && f.IsNumber(6, 0, MaxPosition));
        if (f.Is(4, "LAMP"u8))
            return (true, 3, isEye && f.IsOneOf(6, "ON OFF"u8) && f.IsNumber(7, 0, 100));
        if (f.Is(4, "OUTPUT"u8))
            return (true, 2, isEye && f.IsNumber(6, 0, 999_999_999));
        if (f.Is(4, "ROOM"u8))
            return f.Is(5, "LUX"u8)
                ? (true, 2, f.IsNumber(6, 0, 999_999_999))
                : (true, 1, f.IsOneOf(5, "BRIGHT DIM"u8));
        if (f.Is(4, "FIX"u8))
            return (true, 1, f.IsOneOf(5, "FAR NEAR"u8));
        if (f.Is(4, "LENS"u8))
            return (true, 1, f.IsOneOf(5, "IN OUT"u8));
        if (f.Is(4, "FAULT"u8))
            return (true, 2, f.IsNumber(5, 1, 9999) && f.IsText(6, 0, 40));
        return f.Is(4, "GAP"u8) ? (true, 1, f.IsNumber(5, 1, f.Number(2) ?? 0)) : (f.Is(4, "OFF"u8), 0, true);
    }

    private static bool Beat(scoped in ReferenceFields f) =>
        f.IsHex(1, 16)
        && f.IsNumber(2, 0, MaxTick)
        && f.IsNumber(4, 0, MaxSequence)
        && f.IsNumber(3, 1, f.Number(4)!.Value + 1)
        && (f.Is(5, "-"u8) || f.IsNumber(5, 0, 100));

    private static bool Scale(scoped in ReferenceFields f) =>
        f.IsOneOf(1, "R L"u8)
        && f.IsOneOf(3, "IN OUT"u8)
        && f.IsNumber(4, 1, 1000)
        && f.IsNumber(6, 0, MaxPosition)
        && f.IsNumber(5, 0, f.Number(6)!.Value)
        && f.Number(5) < f.Number(6)
        && f.IsNumber(2, f.Number(5)!.Value, f.Number(6)!.Value);

    private static bool Identity(scoped in ReferenceFields f)
    {
        var fits = f.IsNumber(1, 1, 99) && f.IsText(2, 1, 16) && f.IsText(3, 1, 16) && f.IsText(4, 1, 10);
        fits = fits && f.IsHex(5, 16) && f.IsNumber(7, 1, 32) && f.IsNumber(8, 0, MaxSequence);
        foreach (var c in f[2])
            fits &= char.IsAsciiLetterOrDigit((char)c) || c is (byte)'-' or (byte)'.' or (byte)'_';
        if (!f.Is(6, "-"u8))
        {
            fits = fits && f.IsText(6, 1, 13);
            foreach (var c in f[6])
                fits &= c is >= (byte)'A' and <= (byte)'Z';
        }

        return fits && (f.Number(8) > 0 ? f.IsHost(9) : f.Is(9, "-"u8));
    }

    private static bool IsMode(scoped in ReferenceFields f, int place) =>
        f.IsOneOf(place, "IDLE MEASURE SEQUENCE HOLD"u8);

    private static bool IsBlock(scoped in ReferenceFields f, int place) =>
        f.IsOneOf(place, "- DIRECT SWINGSHORT SWINGLONG NEAR"u8);

    private static ReferenceVerdict Known(int fields, bool fits) =>
        fits ? new(ReferenceKind.Known, fields) : new(ReferenceKind.BadField, 0);
}
