using System.Buffers.Binary;
using System.Numerics;

namespace PupilBridge.Journal;

/// <summary>
/// CRC-32C (Castagnoli), as in RFC 3720, section 12.1: polynomial 1EDC6F41, reflected, start and final xor FFFFFFFF.
/// It finds accidents (torn and rotten sectors); the hash chain finds alterations.
/// </summary>
public static class Crc32C
{
    /// <summary>The checksum of some bytes. The processor's own instruction is used where it has one.</summary>
    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        for (; bytes.Length >= 8; bytes = bytes[8..])
            crc = BitOperations.Crc32C(crc, BinaryPrimitives.ReadUInt64LittleEndian(bytes));
        foreach (byte b in bytes)
            crc = BitOperations.Crc32C(crc, b);
        return ~crc;
    }
}
