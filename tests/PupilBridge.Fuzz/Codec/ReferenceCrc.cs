namespace PupilBridge.Fuzz.Codec;

/// <summary>
/// The checksum of a line by the book, a byte at a time: reflected polynomial EDB88320, start and end exclusive-or FFFFFFFF (docs/protocol.md,
/// section 4). None of the product's code.
/// </summary>
internal static class ReferenceCrc
{
    private static readonly uint[] Table = Make();

    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var b in bytes)
            crc = Table[(byte)(crc ^ b)] ^ (crc >> 8);
        return ~crc;
    }

    /// <summary>Writes a checksum as eight upper-case hexadecimal digits.</summary>
    public static void Write(uint crc, Span<byte> into)
    {
        for (var place = 0; place < 8; place++)
            into[place] = "0123456789ABCDEF"u8[(int)(crc >> (28 - (4 * place))) & 15];
    }

    private static uint[] Make()
    {
        var table = new uint[256];
        for (uint i = 0; i < 256; i++)
        {
            var value = i;
            for (var bit = 0; bit < 8; bit++)
                value = (value & 1) == 1 ? (value >> 1) ^ 0xEDB88320 : value >> 1;
            table[i] = value;
        }

        return table;
    }
}
