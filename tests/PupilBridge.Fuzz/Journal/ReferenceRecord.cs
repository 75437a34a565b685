using System.Buffers.Binary;

namespace PupilBridge.Fuzz.Journal;

/// <summary>The record that begins at a place, read from docs/journal.md alone.</summary>
internal readonly ref struct ReferenceRecord
{
    private const int BeforePayload = 56;
    private static readonly uint[] Table = Make();

    private ReferenceRecord(ReadOnlySpan<byte> bytes) => Bytes = bytes;

    /// <summary>All of its bytes.</summary>
    public ReadOnlySpan<byte> Bytes { get; }

    public int Class => BinaryPrimitives.ReadInt32LittleEndian(Bytes[4..]);

    public long Sequence => BinaryPrimitives.ReadInt64LittleEndian(Bytes[8..]);

    public ReadOnlySpan<byte> ChainBefore => Bytes.Slice(24, 32);

    public ReadOnlySpan<byte> Payload => Bytes[BeforePayload..^4];

    /// <summary>How long the record is that begins here, by its own word; 0 if that cannot be.</summary>
    public static int LengthAt(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < BeforePayload + 5)
            return 0;
        var payload = BinaryPrimitives.ReadUInt32LittleEndian(bytes);
        var length = BeforePayload + payload + 4;
        return payload is >= 1 and <= 65_536 && length <= (uint)bytes.Length ? (int)length : 0;
    }

    /// <summary>Whether a record with a right checksum and a known class begins here.</summary>
    public static bool IsSound(ReadOnlySpan<byte> bytes, out ReferenceRecord record)
    {
        record = default;
        var length = LengthAt(bytes);
        if (
            length == 0
            || Checksum(bytes[..(length - 4)]) != BinaryPrimitives.ReadUInt32LittleEndian(bytes[(length - 4)..])
        )
            return false;
        record = new ReferenceRecord(bytes[..length]);
        return record.Class is >= 1 and <= 3;
    }

    /// <summary>CRC-32C as in RFC 3720, 12.1, a byte at a time.</summary>
    public static uint Checksum(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var b in bytes)
            crc = Table[(byte)(crc ^ b)] ^ (crc >> 8);
        return ~crc;
    }

    private static uint[] Make()
    {
        var table = new uint[256];
        for (uint i = 0; i < 256; i++)
        {
            var value = i;
            for (var bit = 0; bit < 8; bit++)
                value = (value & 1) == 1 ? (value >> 1) ^ 0x82F63B78 : value >> 1;
            table[i] = value;
        }

        return table;
    }
}
