using System.Buffers.Text;
using PupilBridge.Fuzz.Codec;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Seeds;

/// <summary>Changes one line as somebody does who knows its structure: whole fields, numbers near their limits, the checksum made anew or not.</summary>
internal static class LineMutator
{
    private static readonly byte[][] Words =
    [
        .. (
            "- 0 1 2 00 01 99 100 101 119 120 512 9999 10000 60000 60001 99999 100000 999999 1000000 999999999 1000000000 4294967295 "
            + "4294967296 3155760000000 9007199254740991 9007199254740992 9007199254740993 9223372036854775807 9223372036854775808 "
            + "9999999999999999999 18446744073709551615 18446744073709551617 +1 -1 1.5 7e3 R L r X N T ON OFF IN OUT DIAL SELF FAR NEAR "
            + "IDLE MEASURE SEQUENCE HOLD DIRECT SWINGSHORT SWINGLONG LUX BRIGHT DIM MODE EDGE REST LAMP OUTPUT ROOM FIX LENS FAULT GAP "
            + "BLINK OK REFUSED UNKNOWN BUSY TRAIN EV POS BEAT ID STOP SCALE DONE HELD NOVERSION WHO TAKE ACK RESEND CMD 00C0FFEE 00c0ffee "
            + "00000000 0BADCAFE 8F3A11C02B77D4E9 1D20C4B89E6A7F35 FFFFFFFFFFFFFFFF 0000000000000000 MLSPOFVBG MLSPOFVBGXYZA "
            + "ABCDEFGHIJKLMN QA-0001 A_b.c-0123456789 aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
        )
            .Split(' ')
            .Select(System.Text.Encoding.ASCII.GetBytes),
        [],
    ];

    /// <summary>Makes a line out of others.</summary>
    /// <returns>Its length.</returns>
    public static int Change(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        if (dice.OneIn(4))
            return Raw(from, other, into, ref dice);
        var length = Math.Min(Body(from).Length, into.Length - 10);
        from[..length].CopyTo(into);
        for (var times = 1 + (dice.OneIn(4) ? dice.Below(4) : 0); times > 0; times--)
            length = Field(into, length, Body(other), ref dice);
        if (dice.OneIn(16))
            length = Shredder.Change(into[..^10], length, other, ref dice);
        length = Seal(into, length);
        if (dice.OneIn(40))
            length = Shredder.Change(into, length, other, ref dice);
        if (dice.OneIn(30) && length < into.Length)
            into[length++] = (byte)'\r';
        return length;
    }

    /// <summary>Puts the right checksum behind a body that stands in a buffer.</summary>
    /// <returns>The line's length.</returns>
    public static int Seal(Span<byte> buffer, int length)
    {
        length = Math.Min(length, buffer.Length - 9);
        var crc = ReferenceCrc.Of(buffer[..length]);
        buffer[length] = (byte)'*';
        ReferenceCrc.Write(crc, buffer[(length + 1)..]);
        return length + 9;
    }

    /// <summary>What stands before the last star, or all.</summary>
    public static ReadOnlySpan<byte> Body(ReadOnlySpan<byte> line)
    {
        var star = line.LastIndexOf((byte)'*');
        return star < 0 ? line : line[..star];
    }

    private static int Raw(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        var length = Math.Min(from.Length, into.Length);
        from[..length].CopyTo(into);
        for (var times = 1 + dice.Below(3); times > 0; times--)
            length = Shredder.Change(into, length, other, ref dice);
        return length;
    }

    private static int Field(Span<byte> line, int length, ReadOnlySpan<byte> other, ref Dice dice)
    {
        var (start, end) = Pick(line[..length], ref dice);
        Span<byte> made = stackalloc byte[64];
        scoped ReadOnlySpan<byte> next;
        switch (dice.Below(8))
        {
            case 0:
                return Replace(line, length, Math.Max(0, start - 1), end, default);
            case 1:
                start = end;
                made[0] = (byte)',';
                var word = dice.Any<byte[]>(Words);
                word.CopyTo(made[1..]);
                next = made[..(1 + word.Length)];
                break;
            case 2 when Utf8Parser.TryParse(line[start..end], out ulong number, out var used) && used == end - start:
                Utf8Formatter.TryFormat(number + (ulong)(dice.Below(5) - 2), made, out var written);
                next = made[..written];
                break;
            case 3:
                var digits = dice.OneIn(2) ? 1 + dice.Below(6) : 1 + dice.Below(20);
                for (var i = 0; i < digits; i++)
                    made[i] = (byte)('0' + dice.Below(10));
                next = made[..digits];
                break;
            case 4 when !other.IsEmpty:
                var (from, to) = Pick(other, ref dice);
                next = other[from..to];
                break;
            default:
                next = dice.Any<byte[]>(Words);
                break;
        }

        return Replace(line, length, start, end, next);
    }

    private static (int Start, int End) Pick(ReadOnlySpan<byte> line, ref Dice dice)
    {
        var wanted = dice.Below(line.Count((byte)',') + 1);
        var start = 0;
        for (; wanted > 0; wanted--)
            start += line[start..].IndexOf((byte)',') + 1;
        var length = line[start..].IndexOf((byte)',');
        return (start, length < 0 ? line.Length : start + length);
    }

    private static int Replace(Span<byte> line, int length, int start, int end, ReadOnlySpan<byte> next)
    {
        var after = length - (end - start) + next.Length;
        if (after > line.Length - 10)
            return length;
        line[end..length].CopyTo(line[(start + next.Length)..]);
        next.CopyTo(line[start..]);
        return after;
    }
}
