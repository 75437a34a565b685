using System.Buffers.Binary;
using System.Text;
using PupilBridge.Journal.Tests.Faults;

namespace PupilBridge.Journal.Tests.Protection;

/// <summary>Somebody who has the disk and not the key, and can compute checksums and chain.</summary>
internal static class Forgery
{
    /// <summary>
    /// Puts a segment in the clear in place of one, and puts right in all later ones, as far as that goes without the key, what they say of the chain.
    /// </summary>
    /// <param name="disk">The disk.</param>
    /// <param name="number">The first segment to replace.</param>
    /// <param name="upTo">The last segment to replace; later ones are only put right.</param>
    public static void PutInTheClear(FaultyDisk disk, int number, int upTo)
    {
        for (int at = number; disk.List(MemoryJournal.Folder.Segments).Contains(SegmentName.Of(at)); at++)
        {
            bool isReplaced = at <= upTo;
            ChainHash before = at == 1 ? default : EndOf(disk.Content(MemoryJournal.Segment(at - 1)));
            disk.Edit(MemoryJournal.Segment(at), bytes => Replace(bytes, Forged(bytes, before, isReplaced)));
            if (isReplaced)
                disk.Remove(MemoryJournal.Key(at));
        }
    }

    /// <summary>Alters a header, its checksum mended, and puts right all later chain values of its segment.</summary>
    public static void AlterHeader(FaultyDisk disk, int number, Action<byte[]> alter) =>
        disk.Edit(
            MemoryJournal.Segment(number),
            bytes =>
            {
                byte[] segment = [.. bytes];
                alter(segment);
                BinaryPrimitives.WriteUInt32LittleEndian(segment.AsSpan(252), Crc32C.Of(segment.AsSpan(0, 252)));
                Replace(bytes, Chained(segment));
            }
        );

    private static byte[] Forged(List<byte> bytes, ChainHash before, bool isReplaced)
    {
        byte[] header = [.. bytes.Take(SegmentHeader.ByteCount)];
        before.Write(header.AsSpan(48));
        if (isReplaced)
            header.AsSpan(120, 20).Clear();
        BinaryPrimitives.WriteUInt32LittleEndian(header.AsSpan(252), Crc32C.Of(header.AsSpan(0, 252)));
        byte[] segment = [.. bytes];
        List<byte> forged = [.. header];
        for (int at = SegmentHeader.ByteCount; at < segment.Length; )
        {
            int length = RecordLayout.RecordBytes(segment.AsSpan(at));
            Span<byte> record = segment.AsSpan(at, length);
            forged.AddRange(isReplaced ? ForgedRecord(record) : record);
            at += length;
        }
        return Chained([.. forged]);
    }

    /// <summary>A record in the clear that says something else, under the same sequence and class.</summary>
    private static byte[] ForgedRecord(ReadOnlySpan<byte> record)
    {
        byte[] payload = Encoding.UTF8.GetBytes($"forged {RecordLayout.ReadSequence(record)}");
        byte[] forged = [.. record[..RecordLayout.PayloadAt], .. payload, .. stackalloc byte[RecordLayout.CrcBytes]];
        BinaryPrimitives.WriteInt32LittleEndian(forged, payload.Length);
        return forged;
    }

    private static byte[] Chained(byte[] segment)
    {
        ChainHash chain = ChainHash.Of(segment.AsSpan(0, SegmentHeader.ByteCount));
        foreach ((int at, int length) in Records(segment))
        {
            Span<byte> record = segment.AsSpan(at, length);
            chain.Write(record[RecordLayout.PreviousAt..]);
            BinaryPrimitives.WriteUInt32LittleEndian(record[^4..], Crc32C.Of(record[..^4]));
            chain = ChainHash.Of(record);
        }
        return segment;
    }

    private static ChainHash EndOf(byte[] segment)
    {
        ChainHash chain = ChainHash.Of(segment.AsSpan(0, SegmentHeader.ByteCount));
        foreach ((int at, int length) in Records(segment))
            chain = ChainHash.Of(segment.AsSpan(at, length));
        return chain;
    }

    private static IEnumerable<(int At, int Length)> Records(byte[] segment)
    {
        for (int at = SegmentHeader.ByteCount; at < segment.Length; )
        {
            int length = RecordLayout.RecordBytes(segment.AsSpan(at));
            yield return (at, length);
            at += length;
        }
    }

    private static void Replace(List<byte> bytes, byte[] by)
    {
        bytes.Clear();
        bytes.AddRange(by);
    }
}
