using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Journal;

/// <summary>Changes a journal as rot, a torn write or somebody with time on his hands does: bytes, fields, whole records and segments; checksums and chain mended or not.</summary>
internal static class ImageMutator
{
    private const int HeaderBytes = 256;

    /// <summary>Makes an image out of another.</summary>
    /// <returns>Its length.</returns>
    public static int Change(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        var length = Math.Min(from.Length, into.Length);
        from[..length].CopyTo(into);
        Span<SegmentPlace> places = stackalloc SegmentPlace[12];
        for (var times = 1 + (dice.OneIn(3) ? dice.Below(3) : 0); times > 0; times--)
        {
            var image = new Image(into[..length], places);
            if (image.Segments.IsEmpty)
                return length;
            var place = dice.Any(image.Segments);
            var segment = into.Slice(place.Start, place.Length);
            if (dice.OneIn(12))
                length = Segment(into, length, place, ref dice);
            else if (dice.OneIn(5) || place.Length < HeaderBytes)
                Header(segment, ref dice);
            else
                length = Records(into, length, place, other, ref dice);
        }

        return length;
    }

    private static int Segment(Span<byte> image, int length, SegmentPlace place, ref Dice dice)
    {
        var (start, end) = (place.Start - Image.SegmentHeadBytes, place.Start + place.Length);
        if (dice.OneIn(3))
        {
            image[end..length].CopyTo(image[start..]);
            return length - (end - start);
        }

        // Another number: as if the file had been given another name.
        BinaryPrimitives.WriteUInt32LittleEndian(image[start..], (uint)dice.Below(7));
        return length;
    }

    private static void Header(Span<byte> segment, ref Dice dice)
    {
        if (segment.Length < HeaderBytes)
            return;
        var at = dice.Any<int>([0, 8, 12, 16, 24, 32, 40, 48, 80, 88, 104, 120, 124, 140, 144, 176, 240]);
        if (dice.OneIn(2))
            segment[at + dice.Below(8)] ^= (byte)(1 << dice.Below(8));
        else
            BinaryPrimitives.WriteInt32LittleEndian(segment[at..], dice.Any<int>([0, 1, 2, 3, 5, -1, int.MaxValue]));
        if (dice.OneIn(2))
            BinaryPrimitives.WriteUInt32LittleEndian(segment[252..], ReferenceRecord.Checksum(segment[..252]));
    }

    private static int Records(
        Span<byte> image,
        int length,
        SegmentPlace place,
        ReadOnlySpan<byte> other,
        ref Dice dice
    )
    {
        var segment = image.Slice(place.Start, place.Length);
        var (start, end) = Pick(segment, ref dice);
        var record = segment[start..end];
        switch (dice.Below(9))
        {
            case 0:
                return Replace(image, length, place, start, end, default);
            case 1:
                return Replace(image, length, place, end, end, record);
            case 2:
                var (first, last) = Pick(segment, ref dice);
                return Replace(image, length, place, first, first, segment[start..end]);
            case 3:
                return Replace(
                    image,
                    length,
                    place,
                    dice.OneIn(2) ? start : start + dice.Below(end - start + 1),
                    place.Length,
                    default
                );
            case 4:
                record.Slice(dice.Below(record.Length + 1)).Clear();
                return length;
            case 5 when other.Length > 700:
                var from = dice.Below(other.Length - 100);
                return Replace(image, length, place, start, start, other.Slice(from, 1 + dice.Below(100)));
            case 6 when record.Length > 60:
                BinaryPrimitives.WriteInt32LittleEndian(
                    record[dice.Any<int>([0, 4, 8, 12, 16, 20])..],
                    dice.Any<int>([0, 1, 2, 3, 4, 5, 9, 65_536, 65_537, -1, int.MaxValue, int.MinValue])
                );
                break;
            default:
                if (record.Length > 0)
                    record[dice.Below(record.Length)] ^= (byte)(1 << dice.Below(8));
                break;
        }

        if (dice.OneIn(2))
            Mend(segment, start, alsoAfter: dice.OneIn(3));
        return length;
    }

    /// <summary>Makes a record's checksum right, and, like somebody who knows how, the chain and checksums of all that follow.</summary>
    private static void Mend(Span<byte> segment, int start, bool alsoAfter)
    {
        Span<byte> chain = stackalloc byte[32];
        for (var isFirst = true; ReferenceRecord.LengthAt(segment[start..]) is > 0 and var count; isFirst = false)
        {
            var record = segment.Slice(start, count);
            if (!isFirst)
                chain.CopyTo(record[24..]);
            BinaryPrimitives.WriteUInt32LittleEndian(record[^4..], ReferenceRecord.Checksum(record[..^4]));
            if (!alsoAfter)
                return;
            SHA256.HashData(record, chain);
            start += count;
        }
    }

    /// <summary>A record of a segment, found from length to length; where that leads nowhere, a piece.</summary>
    private static (int Start, int End) Pick(ReadOnlySpan<byte> segment, ref Dice dice)
    {
        var start = HeaderBytes;
        for (var skip = dice.Below(8); skip > 0; skip--)
        {
            var count = ReferenceRecord.LengthAt(segment[start..]);
            if (count == 0 || start + count >= segment.Length)
                break;
            start += count;
        }

        var length = ReferenceRecord.LengthAt(segment[start..]);
        return (start, length > 0 ? start + length : Math.Min(segment.Length, start + 80));
    }

    private static int Replace(
        Span<byte> image,
        int length,
        SegmentPlace place,
        int start,
        int end,
        ReadOnlySpan<byte> next
    )
    {
        var grown = next.Length - (end - start);
        if (length + grown > image.Length || next.Length > 2048)
            return length;
        Span<byte> piece = stackalloc byte[2048];
        next.CopyTo(piece);
        var (from, to) = (place.Start + end, place.Start + start);
        image[from..length].CopyTo(image[(to + next.Length)..]);
        piece[..next.Length].CopyTo(image[to..]);
        BinaryPrimitives.WriteUInt32LittleEndian(image[(place.Start - 4)..], (uint)(place.Length + grown));
        return length + grown;
    }
}
