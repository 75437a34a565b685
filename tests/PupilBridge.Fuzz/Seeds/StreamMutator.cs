using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Seeds;

/// <summary>Changes a stream of lines: lines dropped, doubled, put in another order, taken from elsewhere, changed within; and bytes as they come.</summary>
internal static class StreamMutator
{
    /// <summary>Makes a stream out of others.</summary>
    /// <returns>Its length.</returns>
    public static int Change(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        var length = Math.Min(from.Length, into.Length);
        from[..length].CopyTo(into);
        for (var times = 1 + dice.Below(4); times > 0; times--)
        {
            length = dice.OneIn(8)
                ? Shredder.Change(into, length, other, ref dice)
                : Lines(into, length, other, ref dice);
        }

        return length;
    }

    private static int Lines(Span<byte> stream, int length, ReadOnlySpan<byte> other, ref Dice dice)
    {
        var (start, end) = Pick(stream[..length], ref dice);
        Span<byte> made = stackalloc byte[512];
        scoped ReadOnlySpan<byte> next;
        switch (dice.Below(6))
        {
            case 0:
                next = default;
                break;
            case 1:
                var (from, to) = Pick(stream[..length], ref dice);
                next = made[..Copy(stream[from..to], made)];
                start = end;
                break;
            case 2 when !other.IsEmpty:
                var (first, last) = Pick(other, ref dice);
                next = other[first..last];
                start = dice.OneIn(2) ? start : end;
                break;
            case 3:
                return Swap(stream, length, ref dice);
            default:
                var line = stream[start..end].TrimEnd((byte)10);
                if (line.Length > 160)
                    return length;
                Span<byte> room = stackalloc byte[160];
                var count = LineMutator.Change(line, Line(other, ref dice), room, ref dice);
                room[..count].CopyTo(made);
                made[count] = 10;
                next = made[..(count + 1)];
                break;
        }

        return Replace(stream, length, start, end, next);
    }

    /// <summary>Puts a line somewhere else.</summary>
    private static int Swap(Span<byte> stream, int length, ref Dice dice)
    {
        var (start, end) = Pick(stream[..length], ref dice);
        if (end - start > 512)
            return length;
        Span<byte> line = stackalloc byte[512];
        var count = Copy(stream[start..end], line);
        length = Replace(stream, length, start, end, default);
        var (to, _) = Pick(stream[..length], ref dice);
        return Replace(stream, length, to, to, line[..count]);
    }

    private static ReadOnlySpan<byte> Line(ReadOnlySpan<byte> stream, ref Dice dice)
    {
        var (start, end) = Pick(stream, ref dice);
        var line = stream[start..end].TrimEnd((byte)10);
        return line[..Math.Min(line.Length, 150)];
    }

    /// <summary>A line with its end: from any byte back to the end of the line before, and on to its own.</summary>
    private static (int Start, int End) Pick(ReadOnlySpan<byte> stream, ref Dice dice)
    {
        var at = dice.Below(stream.Length + 1);
        var start = stream[..at].LastIndexOf((byte)10) + 1;
        var length = stream[start..].IndexOf((byte)10);
        return (start, length < 0 ? stream.Length : start + length + 1);
    }

    private static int Copy(ReadOnlySpan<byte> from, Span<byte> to)
    {
        var count = Math.Min(from.Length, to.Length);
        from[..count].CopyTo(to);
        return count;
    }

    private static int Replace(Span<byte> stream, int length, int start, int end, ReadOnlySpan<byte> next)
    {
        var after = length - (end - start) + next.Length;
        if (after > stream.Length)
            return length;
        stream[end..length].CopyTo(stream[(start + next.Length)..]);
        next.CopyTo(stream[start..]);
        return after;
    }
}
