using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Seeds;

/// <summary>Changes a text of fields, as JSON and CSV are: whole tokens, what stands between separators, and bytes as they come.</summary>
internal static class TextMutator
{
    private static readonly byte[][] Words =
    [
        .. (
            "0 -1 1 1e309 1e-400 0.1 -0.0 2147483648 9007199254740993 9223372036854775807 9223372036854775808 99999999999999999999999 NaN null "
            + "true false {} [] [[]] {\"a\":{}} \"\" \" \" \"-\" \"Q-1001\" \"OD\" \"OS\" \"bright\" \"dim\" \"0001-01-01\" \"9999-12-31\" \"2026-02-30\" "
            + "\"2026-03-02T09:00:00Z\" \"9999-12-31T23:59:59.9999999+14:00\" \"0001-01-01T00:00:00-14:00\" \"24:00\" \"23:59\" =1+1 @SUM(A1) "
            + "\"\\u0000\" \"\\ud800\" \"\\u202e\" \"../../etc\" \"<script>\" \"%s%n\" \"MK\" \"QB-0701\" entry who at exam patient time name , ; : \" \"\" } ] { ["
        )
            .Split(' ')
            .Where(word => word.Length > 0)
            .Select(System.Text.Encoding.UTF8.GetBytes),
        "\0"u8.ToArray(),
        "\uFEFF"u8.ToArray(),
        "é\u0301\u200D👁"u8.ToArray(),
        [0xC3, 0x28],
        [0xED, 0xA0, 0x80],
        "\r\n"u8.ToArray(),
        "\t"u8.ToArray(),
        [.. Enumerable.Repeat((byte)'[', 80)],
        [.. Enumerable.Repeat((byte)'A', 300)],
    ];

    /// <summary>Makes a text out of others.</summary>
    /// <returns>Its length.</returns>
    public static int Change(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        var length = Math.Min(from.Length, into.Length);
        from[..length].CopyTo(into);
        for (var times = 1 + dice.Below(4); times > 0; times--)
        {
            length = dice.OneIn(6)
                ? Shredder.Change(into, length, other, ref dice)
                : Token(into, length, other, ref dice);
        }

        return length;
    }

    private static int Token(Span<byte> text, int length, ReadOnlySpan<byte> other, ref Dice dice)
    {
        var (start, end) = Pick(text[..length], ref dice);
        Span<byte> made = stackalloc byte[512];
        scoped ReadOnlySpan<byte> next;
        switch (dice.Below(6))
        {
            case 0:
                next = default;
                break;
            case 1:
                var (from, to) = Pick(text[..length], ref dice);
                to = Math.Min(to, from + made.Length);
                text[from..to].CopyTo(made);
                next = made[..(to - from)];
                break;
            case 2 when !other.IsEmpty:
                var (first, last) = Pick(other, ref dice);
                next = other[first..last];
                break;
            case 3:
                start = end;
                next = dice.Any<byte[]>(Words);
                break;
            default:
                next = dice.Any<byte[]>(Words);
                break;
        }

        var after = length - (end - start) + next.Length;
        if (after > text.Length)
            return length;
        text[end..length].CopyTo(text[(start + next.Length)..]);
        next.CopyTo(text[start..]);
        return after;
    }

    /// <summary>A token: up to the next separator; now and then the separator too, so that whole members go.</summary>
    private static (int Start, int End) Pick(ReadOnlySpan<byte> text, ref Dice dice)
    {
        var separators = "{}[],:;\"\n\r"u8;
        var at = dice.Below(text.Length + 1);
        var start = text[..at].LastIndexOfAny(separators) + 1;
        var length = text[start..].IndexOfAny(separators);
        var end = length < 0 ? text.Length : start + length + (dice.OneIn(3) ? 1 : 0);
        return (dice.OneIn(4) && start > 0 ? start - 1 : start, Math.Max(end, start));
    }
}
