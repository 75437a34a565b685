namespace PupilBridge.Fuzz.Engine;

/// <summary>Changes bytes without knowing what they mean.</summary>
internal static class Shredder
{
    /// <summary>Changes what stands in a buffer.</summary>
    /// <param name="bytes">The buffer; its whole length may be used.</param>
    /// <param name="length">How much of it holds the input.</param>
    /// <param name="other">Another input, from which pieces may be taken.</param>
    /// <param name="dice">Chance.</param>
    /// <returns>The new length.</returns>
    public static int Change(Span<byte> bytes, int length, ReadOnlySpan<byte> other, ref Dice dice)
    {
        var at = dice.Below(length + 1);
        var some = 1 + dice.Below(Math.Min(16, Math.Max(1, length - at)));
        switch (dice.Below(8))
        {
            case 0 when at < length:
                bytes[at] ^= (byte)(1 << dice.Below(8));
                return length;
            case 1 when at < length:
                bytes[at] = (byte)dice.Next();
                return length;
            case 2 when at < length:
                bytes[at] = dice.Any<byte>([
                    0,
                    0xFF,
                    0x7F,
                    0x80,
                    10,
                    13,
                    32,
                    (byte)',',
                    (byte)'*',
                    (byte)'"',
                    (byte)'9',
                    (byte)'0',
                ]);
                return length;
            case 3 when at + some <= length:
                bytes[(at + some)..length].CopyTo(bytes[at..]);
                return length - some;
            case 4 when at + some <= length && length + some <= bytes.Length:
                bytes[at..length].CopyTo(bytes[(at + some)..]);
                return length + some;
            case 5 when at + some <= length:
                var to = dice.Below(length - some + 1);
                bytes.Slice(at, some).CopyTo(bytes[to..]);
                return length;
            case 6 when !other.IsEmpty:
                var from = dice.Below(other.Length);
                var piece = other.Slice(from, Math.Min(other.Length - from, 1 + dice.Below(64)));
                if (length + piece.Length > bytes.Length)
                    return length;
                bytes[at..length].CopyTo(bytes[(at + piece.Length)..]);
                piece.CopyTo(bytes[at..]);
                return length + piece.Length;
            case 7:
                return at;
            default:
                return length;
        }
    }
}
