namespace PupilBridge.Instrument.Wire;

/// <summary>Takes the fields of a line one after the other. Once a field cannot be read, the reader stays failed.</summary>
internal ref struct FieldReader
{
    private readonly ReadOnlySpan<byte> body;
    private int position;
    private int field;

    internal FieldReader(ReadOnlySpan<byte> body)
    {
        this.body = body;
        var end = body.IndexOf((byte)',');
        Type = end < 0 ? body : body[..end];
        position = Type.Length;
    }

    /// <summary>What stands before the first comma.</summary>
    internal ReadOnlySpan<byte> Type { get; }

    /// <summary>The place of the first field that could not be read; 0 as long as all could.</summary>
    internal int FailedField { get; private set; }

    internal readonly bool Ok => FailedField == 0;

    /// <summary>Whether a further field stands in the line.</summary>
    internal readonly bool HasMore => position < body.Length;

    /// <summary>Whether the next field is a single dash.</summary>
    internal readonly bool NextIsDash
    {
        get
        {
            var rest = position < body.Length ? body[(position + 1)..] : default;
            return !rest.IsEmpty && rest[0] == '-' && (rest.Length == 1 || rest[1] == ',');
        }
    }

    /// <summary>The next field as it stands; empty, and failed, if there is none.</summary>
    internal ReadOnlySpan<byte> Word()
    {
        field++;
        if (position >= body.Length)
        {
            Fail();
            return default;
        }

        var rest = body[(position + 1)..];
        // Fields are short: a plain loop is quicker than a vector search for them.
        var length = 0;
        while (length < rest.Length && rest[length] != ',')
            length++;
        position += 1 + length;
        return rest[..length];
    }

    /// <summary>A whole number in decimal without sign and leading zeros.</summary>
    internal long Number(long lowest, long highest)
    {
        field++;
        var at = position + 1;
        var start = at;
        ulong value = 0;
        // Up to nineteen digits: below 10^19, which an unsigned 64-bit word holds.
        while ((uint)at < (uint)body.Length && at - start < 19 && (uint)(body[at] - '0') <= 9)
            value = (value * 10) + (uint)(body[at++] - '0');
        position = at;
        var ended = at >= body.Length || body[at] == ',';
        var canonical = at - start == 1 || (at > start && body[start] != '0');
        if (!ended || !canonical || value < (ulong)lowest || value > (ulong)highest)
        {
            Fail();
            return 0;
        }

        return (long)value;
    }

    /// <summary>Sixteen upper-case hexadecimal digits.</summary>
    internal ulong Hex16()
    {
        var word = Word();
        if (
            word.Length == 16
            && LineEnvelope.TryHex8(word, out var high)
            && LineEnvelope.TryHex8(word[8..], out var low)
        )
            return ((ulong)high << 32) | low;
        Fail();
        return 0;
    }

    /// <summary>The number of a host; eight upper-case hexadecimal digits, not all zero.</summary>
    internal HostId Host()
    {
        var word = Word();
        if (word.Length == 8 && LineEnvelope.TryHex8(word, out var value) && value != 0)
            return new HostId(value);
        Fail();
        return default;
    }

    /// <summary>A text of the given length.</summary>
    internal AsciiText Text(int shortest, int longest)
    {
        var word = Word();
        if (word.Length >= shortest && word.Length <= longest)
            return AsciiText.FromChecked(word);
        Fail();
        return default;
    }

    internal void Fail()
    {
        if (FailedField == 0)
            FailedField = field;
    }

    /// <summary>Forgets the failure: the caller has another use for the line.</summary>
    internal void Forgive() => FailedField = 0;
}
