namespace PupilBridge.Fuzz.Codec;

/// <summary>The fields of a line, cut at the commas, and whether each is what docs/protocol.md allows there.</summary>
internal ref struct ReferenceFields
{
    private readonly ReadOnlySpan<byte> body;
    private readonly Span<short> ends;

    /// <param name="body">The line before its star.</param>
    /// <param name="ends">Room for the places of the commas, 120 of them.</param>
    public ReferenceFields(ReadOnlySpan<byte> body, Span<short> ends)
    {
        this.body = body;
        this.ends = ends;
        for (short at = 0; at < body.Length; at++)
        {
            if (body[at] == ',')
                ends[Count++] = at;
        }

        ends[Count++] = (short)body.Length;
    }

    /// <summary>How many there are, the type included.</summary>
    public int Count { get; }

    /// <summary>A field; empty if there is none.</summary>
    public readonly ReadOnlySpan<byte> this[int place] =>
        place >= Count ? default : body[(place == 0 ? 0 : ends[place - 1] + 1)..ends[place]];

    /// <summary>Everything up to the end of a field, commas included.</summary>
    public readonly ReadOnlySpan<byte> Through(int place) => body[..ends[place]];

    public readonly bool Is(int place, ReadOnlySpan<byte> word) => place < Count && this[place].SequenceEqual(word);

    /// <summary>Whether a field is one of some words, which stand with blanks between them.</summary>
    public readonly bool IsOneOf(int place, ReadOnlySpan<byte> words)
    {
        while (place < Count)
        {
            var end = words.IndexOf((byte)' ');
            if (this[place].SequenceEqual(end < 0 ? words : words[..end]))
                return true;
            if (end < 0)
                return false;
            words = words[(end + 1)..];
        }

        return false;
    }

    /// <summary>Whether a field is a number within a range: decimal, no sign, no leading zeros, no separators.</summary>
    public readonly bool IsNumber(int place, ulong lowest, ulong highest) =>
        Number(place) is { } value && value >= lowest && value <= highest;

    /// <summary>A field's number; null if it is none, or beyond 19 digits.</summary>
    public readonly ulong? Number(int place)
    {
        var field = this[place];
        if (field.Length is 0 or > 19 || (field[0] == '0' && field.Length > 1))
            return null;
        ulong value = 0;
        foreach (var c in field)
        {
            if (c is < (byte)'0' or > (byte)'9')
                return null;
            value = checked((value * 10) + (ulong)(c - '0'));
        }

        return value;
    }

    /// <summary>Whether a field has so many upper-case hexadecimal digits.</summary>
    public readonly bool IsHex(int place, int digits)
    {
        var field = this[place];
        if (field.Length != digits)
            return false;
        foreach (var c in field)
        {
            if (c is not ((>= (byte)'0' and <= (byte)'9') or (>= (byte)'A' and <= (byte)'F')))
                return false;
        }

        return true;
    }

    /// <summary>Whether a field names a host: eight digits, not all zero.</summary>
    public readonly bool IsHost(int place) => IsHex(place, 8) && !this[place].SequenceEqual("00000000"u8);

    /// <summary>Whether a field is there and has so many characters. Which ones was checked with the whole line.</summary>
    public readonly bool IsText(int place, int shortest, int longest) =>
        place < Count && this[place].Length >= shortest && this[place].Length <= longest;
}
