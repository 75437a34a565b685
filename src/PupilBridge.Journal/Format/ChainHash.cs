using System.Buffers.Binary;
using System.Security.Cryptography;

namespace PupilBridge.Journal;

/// <summary>
/// A value of the hash chain: SHA-256 (FIPS 180-4) of a record or of a segment header, each of which holds the value
/// before it. The default, all zero, stands for "nothing before". Kept as four words so that comparing allocates nothing.
/// </summary>
/// <param name="A">Bytes 0 to 7, read as big-endian.</param>
/// <param name="B">Bytes 8 to 15.</param>
/// <param name="C">Bytes 16 to 23.</param>
/// <param name="D">Bytes 24 to 31.</param>
public readonly record struct ChainHash(ulong A, ulong B, ulong C, ulong D)
{
    /// <summary>The length of a hash in bytes.</summary>
    public const int ByteCount = 32;

    /// <summary>The hash of some bytes.</summary>
    public static ChainHash Of(ReadOnlySpan<byte> bytes)
    {
        Span<byte> digest = stackalloc byte[ByteCount];
        SHA256.HashData(bytes, digest);
        return Read(digest);
    }

    /// <summary>The hash that stands at the beginning of some bytes (at least 32).</summary>
    public static ChainHash Read(ReadOnlySpan<byte> bytes) =>
        new(
            BinaryPrimitives.ReadUInt64BigEndian(bytes),
            BinaryPrimitives.ReadUInt64BigEndian(bytes[8..]),
            BinaryPrimitives.ReadUInt64BigEndian(bytes[16..]),
            BinaryPrimitives.ReadUInt64BigEndian(bytes[24..])
        );

    /// <summary>Reads 64 hexadecimal digits, as a person copies them from paper; white space is passed over.</summary>
    public static bool TryParse(string? text, out ChainHash hash)
    {
        hash = default;
        string digits = string.Concat((text ?? "").Where(c => !char.IsWhiteSpace(c)));
        if (digits.Length != 2 * ByteCount || !digits.All(char.IsAsciiHexDigit))
            return false;
        hash = Read(Convert.FromHexString(digits));
        return true;
    }

    /// <summary>Writes the hash to the beginning of some bytes (at least 32).</summary>
    public void Write(Span<byte> bytes)
    {
        BinaryPrimitives.WriteUInt64BigEndian(bytes, A);
        BinaryPrimitives.WriteUInt64BigEndian(bytes[8..], B);
        BinaryPrimitives.WriteUInt64BigEndian(bytes[16..], C);
        BinaryPrimitives.WriteUInt64BigEndian(bytes[24..], D);
    }

    /// <summary>64 lower-case hexadecimal digits.</summary>
    public override string ToString() => $"{A:x16}{B:x16}{C:x16}{D:x16}";
}
