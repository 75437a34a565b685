using System.Buffers.Binary;
using System.Security.Cryptography;

namespace PupilBridge.Fuzz.Journal;

/// <summary>
/// A verifier written from docs/journal.md alone, strict and short: a journal is sound if it is whole, every header and record right, each
/// following from the one before, and nothing else about. It shares no code with the product (SHA-256 is the base library's for both).
/// </summary>
internal static class ReferenceJournal
{
    private const int HeaderBytes = 256;

    /// <summary>Whether an image is a sound journal without any remark, and how many records it has.</summary>
    public static bool IsSound(ReadOnlySpan<byte> bytes, scoped in Image image, out long records)
    {
        records = 0;
        Span<SegmentPlace> ordered = stackalloc SegmentPlace[image.Segments.Length];
        image.Segments.CopyTo(ordered);
        ordered.Sort((a, b) => a.Number.CompareTo(b.Number));
        Span<byte> chain = stackalloc byte[32];
        chain.Clear();
        var (sequence, number) = (0L, 0L);
        for (var i = 0; i < ordered.Length; i++)
        {
            var segment = bytes.Slice(ordered[i].Start, ordered[i].Length);
            if (!Header(segment, ordered[i].Number, number, sequence, chain))
                return false;
            number = ordered[i].Number;
            SHA256.HashData(segment[..HeaderBytes], chain);
            var at = HeaderBytes;
            while (ReferenceRecord.IsSound(segment[at..], out var record))
            {
                if (record.Sequence != sequence + 1 || !record.ChainBefore.SequenceEqual(chain))
                    return false;
                SHA256.HashData(record.Bytes, chain);
                (sequence, at, records) = (sequence + 1, at + record.Bytes.Length, records + 1);
            }

            if (segment[at..].ContainsAnyExcept((byte)0))
                return false;
        }

        return true;
    }

    /// <summary>Whether a sound record with this content begins anywhere in an image.</summary>
    public static bool Holds(
        ReadOnlySpan<byte> bytes,
        scoped in Image image,
        long sequence,
        int kind,
        ReadOnlySpan<byte> payload
    )
    {
        foreach (var place in image.Segments)
        {
            var segment = bytes.Slice(place.Start, place.Length);
            for (var at = HeaderBytes; at < segment.Length; at++)
            {
                if (
                    ReferenceRecord.LengthAt(segment[at..]) != payload.Length + 60
                    || !ReferenceRecord.IsSound(segment[at..], out var record)
                )
                    continue;
                if (record.Sequence == sequence && record.Class == kind && record.Payload.SequenceEqual(payload))
                    return true;
            }
        }

        return false;
    }

    private static bool Header(
        ReadOnlySpan<byte> segment,
        uint name,
        long number,
        long sequence,
        ReadOnlySpan<byte> chain
    )
    {
        if (segment.Length < HeaderBytes || !segment.StartsWith("PBJOURNL"u8))
            return false;
        if (BinaryPrimitives.ReadUInt32LittleEndian(segment[252..]) != ReferenceRecord.Checksum(segment[..252]))
            return false;
        return BinaryPrimitives.ReadInt32LittleEndian(segment[8..]) == 1
            && BinaryPrimitives.ReadInt64LittleEndian(segment[16..]) == name
            && BinaryPrimitives.ReadInt64LittleEndian(segment[24..]) == sequence + 1
            && BinaryPrimitives.ReadInt64LittleEndian(segment[32..]) == number
            && BinaryPrimitives.ReadInt64LittleEndian(segment[40..]) == sequence
            && segment.Slice(48, 32).SequenceEqual(chain)
            && BinaryPrimitives.ReadInt32LittleEndian(segment[120..]) == 0;
    }
}
