using System.Buffers;
using System.Buffers.Binary;

namespace PupilBridge.Instrument.Wire;

/// <summary>Opens the envelope that all lines share: the star, the eight digits, and the bytes that are allowed.</summary>
internal static class LineEnvelope
{
    private static readonly SearchValues<byte> Allowed = SearchValues.Create(
        " !\"#$%&'()+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~"u8
    );

    /// <summary>Checks a line's content and gives what stands before the star.</summary>
    internal static LineFaultKind Open(ReadOnlySpan<byte> line, out ReadOnlySpan<byte> body, out uint crc)
    {
        body = default;
        crc = 0;
        if (!line.IsEmpty && line[^1] == '\r')
            line = line[..^1];
        if (line.Length > WireLimits.MaxContentBytes)
            return LineFaultKind.TooLong;
        var star = line.Length - WireLimits.CheckBytes;
        if (star < 1 || line[star] != '*' || !TryHex8(line[(star + 1)..], out crc))
            return LineFaultKind.NoCheck;
        body = line[..star];
        if (LineCrc.Of(body) != crc)
            return LineFaultKind.BadCheck;
        return body.ContainsAnyExcept(Allowed) ? LineFaultKind.ForbiddenByte : LineFaultKind.None;
    }

    /// <summary>Reads eight upper-case hexadecimal digits, all at once as the bytes of one word.</summary>
    internal static bool TryHex8(ReadOnlySpan<byte> digits, out uint value)
    {
        const ulong ones = 0x0101_0101_0101_0101;
        const ulong tops = 0x80 * ones;
        var word = BinaryPrimitives.ReadUInt64BigEndian(digits);
        // A byte's top bit in each mask: whether that byte lies within the range. All bytes are below 128, or none passes.
        var decimals = InRange(word, (byte)'0', (byte)'9');
        var letters = InRange(word, (byte)'A', (byte)'F');
        var nibbles = (word & (0x0F * ones)) + (9 * (letters >> 7));
        nibbles = (nibbles | (nibbles >> 4)) & 0x00FF_00FF_00FF_00FF;
        nibbles = (nibbles | (nibbles >> 8)) & 0x0000_FFFF_0000_FFFF;
        value = (uint)(nibbles | (nibbles >> 16));
        return (word & tops) == 0 && (decimals | letters) == tops;

        static ulong InRange(ulong word, byte low, byte high)
        {
            var below = (word & ~tops) + ((0x80u - low) * ones); // top bit set where byte >= low
            var above = (word & ~tops) + ((0x7Fu - high) * ones); // top bit set where byte > high
            return below & ~above & tops;
        }
    }
}
