using System.Buffers.Binary;

namespace PupilBridge.Journal;

/// <summary>
/// Where the fields of a record stand. All numbers are little-endian; docs/journal.md is the full text.
/// <code>
///  0  4  payload length n, 1 to 65,536 (0 = nothing more was written here); encrypted: 16 more, for the tag
///  4  4  class
///  8  8  sequence
/// 16  8  the last sequence that was durable when this record was written
/// 24 32  chain value before this record
/// 56  n  payload
/// 56+n 4 CRC-32C of all bytes before
/// </code>
/// </summary>
internal static class RecordLayout
{
    public const int ClassAt = 4;
    public const int SequenceAt = 8;
    public const int DurableBeforeAt = 16;
    public const int PreviousAt = 24;
    public const int PayloadAt = 56;
    public const int CrcBytes = 4;
    public const int OverheadBytes = PayloadAt + CrcBytes;
    public const int MaxPayloadBytes = 65_536;

    /// <summary>The tag of AES-GCM, which stands behind an encrypted payload and counts as part of it.</summary>
    public const int TagBytes = 16;
    public const int MaxStoredBytes = MaxPayloadBytes + TagBytes;
    public const int MaxRecordBytes = OverheadBytes + MaxStoredBytes;

    /// <summary>The length of the record that begins here, 0 when its length field cannot be right.</summary>
    public static int RecordBytes(ReadOnlySpan<byte> record)
    {
        if (record.Length < 4)
            return 0;
        uint payload = BinaryPrimitives.ReadUInt32LittleEndian(record);
        return payload is 0 or > MaxStoredBytes ? 0 : OverheadBytes + (int)payload;
    }

    /// <summary>Whether a whole record that passes its checksum begins here.</summary>
    public static bool IsSound(ReadOnlySpan<byte> bytes)
    {
        int length = RecordBytes(bytes);
        if (length == 0 || length > bytes.Length)
            return false;
        return ReadClass(bytes) is >= RecordClass.Entry and <= RecordClass.CleanStop
            && Crc32C.Of(bytes[..(length - CrcBytes)])
                == BinaryPrimitives.ReadUInt32LittleEndian(bytes[(length - CrcBytes)..]);
    }

    /// <summary>The payload as it is stored.</summary>
    public static ReadOnlySpan<byte> PayloadOf(ReadOnlySpan<byte> record) => record[PayloadAt..^CrcBytes];

    public static RecordClass ReadClass(ReadOnlySpan<byte> record) =>
        (RecordClass)BinaryPrimitives.ReadUInt32LittleEndian(record[ClassAt..]);

    public static long ReadSequence(ReadOnlySpan<byte> record) =>
        BinaryPrimitives.ReadInt64LittleEndian(record[SequenceAt..]);

    public static long ReadDurableBefore(ReadOnlySpan<byte> record) =>
        BinaryPrimitives.ReadInt64LittleEndian(record[DurableBeforeAt..]);

    public static ChainHash ReadPrevious(ReadOnlySpan<byte> record) => ChainHash.Read(record[PreviousAt..]);
}
