using System.Buffers.Binary;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Journal;

/// <summary>
/// Changes an encrypted journal as somebody does who has the disk and not the key: everything that <see cref="ImageMutator"/> does, and besides
/// segments in the clear put in place of encrypted ones, contents, tags and numbers swapped between records and between segments, key files exchanged, and headers that name another key or none;
/// checksums mended, since whoever can do the one can do the other.
/// </summary>
internal static class SealedMutator
{
    private const int BeforePayload = 56;
    private const int HeaderBytes = 256;

    /// <summary>Makes an image out of another.</summary>
    /// <returns>Its length.</returns>
    public static int Change(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        if (dice.OneIn(3))
            return ImageMutator.Change(from, other, into, ref dice);
        var length = Math.Min(from.Length, into.Length);
        from[..length].CopyTo(into);
        Span<SegmentPlace> places = stackalloc SegmentPlace[12];
        var files = new Image(into[..length], places).Segments;
        if (files.IsEmpty)
            return length;
        if (dice.OneIn(6))
        {
            ClearInPlace.Put(into, files, ref dice);
            return length;
        }

        for (var times = 1 + dice.Below(2); times > 0; times--)
            Once(into, files, ref dice);
        if (dice.OneIn(12))
            into[1] = (byte)dice.Below(4);
        return length;
    }

    private static void Once(Span<byte> image, ReadOnlySpan<SegmentPlace> files, ref Dice dice)
    {
        var one = dice.Any(files);
        if ((one.Number & SealedJournals.KeyFile) != 0)
            Key(image, one, dice.Any(files), ref dice);
        else if (dice.OneIn(4))
            Header(image, one, dice.Any(files), ref dice);
        else
            Records(image, one, dice.Any(files), ref dice);
    }

    /// <summary>Swaps or changes what two records hold, and mends both checksums.</summary>
    private static void Records(Span<byte> image, SegmentPlace one, SegmentPlace another, ref Dice dice)
    {
        var (first, second) = (Pick(image, one, ref dice), Pick(image, another, ref dice));
        if (first.Length == 0)
            return;
        switch (dice.Below(4))
        {
            case 0 when first.Length == second.Length:
                // Content and tag of the one under the head of the other.
                Swap(
                    image,
                    first.Start + BeforePayload,
                    second.Start + BeforePayload,
                    first.Length - BeforePayload - 4
                );
                Mend(image, second);
                break;
            case 1 when first.Length == second.Length:
                Swap(image, first.Start, second.Start, first.Length);
                break;
            case 2 when second.Length > 0:
                // Sequence and class, from which nonce and associated data are made.
                Swap(image, first.Start + 4, second.Start + 4, 12);
                Mend(image, second);
                break;
            default:
                image[first.Start + BeforePayload + dice.Below(first.Length - BeforePayload - 4)] ^= (byte)(
                    1 << dice.Below(8)
                );
                break;
        }

        Mend(image, first);
    }

    private static void Header(Span<byte> image, SegmentPlace one, SegmentPlace another, ref Dice dice)
    {
        if (one.Length < HeaderBytes)
            return;
        var header = image.Slice(one.Start, HeaderBytes);
        if (dice.OneIn(2) && another.Length >= HeaderBytes)
            image.Slice(another.Start + 124, 16).CopyTo(header[124..]);
        else
            header[120] = (byte)dice.Below(3);
        if (!dice.OneIn(4))
            BinaryPrimitives.WriteUInt32LittleEndian(header[252..], ReferenceRecord.Checksum(header[..252]));
    }

    private static void Key(Span<byte> image, SegmentPlace one, SegmentPlace another, ref Dice dice)
    {
        var file = image.Slice(one.Start, one.Length);
        if (dice.OneIn(3) && (another.Number & SealedJournals.KeyFile) != 0 && one.Length == another.Length)
        {
            Swap(image, one.Start, another.Start, one.Length);
            return;
        }

        foreach (var copy in dice.OneIn(2) ? (ReadOnlySpan<int>)[0, 4096] : [dice.OneIn(2) ? 0 : 4096])
        {
            if (file.Length < copy + 64)
                continue;
            file[copy + dice.Below(64)] ^= (byte)(1 << dice.Below(8));
            var end = BinaryPrimitives.ReadUInt32LittleEndian(file[(copy + 32)..]) + 36;
            if (dice.OneIn(2) && copy + end + 4 <= file.Length)
                BinaryPrimitives.WriteUInt32LittleEndian(
                    file[(copy + (int)end)..],
                    ReferenceRecord.Checksum(file.Slice(copy, (int)end))
                );
        }
    }

    private static (int Start, int Length) Pick(ReadOnlySpan<byte> image, SegmentPlace place, ref Dice dice)
    {
        if (place.Length <= HeaderBytes)
            return default;
        var segment = image.Slice(place.Start, place.Length);
        var at = HeaderBytes;
        for (var skip = dice.Below(6); skip > 0; skip--)
        {
            var next = at + ReferenceRecord.LengthAt(segment[at..]);
            if (next == at || next >= segment.Length || ReferenceRecord.LengthAt(segment[next..]) == 0)
                break;
            at = next;
        }

        return (place.Start + at, ReferenceRecord.LengthAt(segment[at..]));
    }

    private static void Swap(Span<byte> image, int one, int another, int count)
    {
        for (var i = 0; i < count; i++)
            (image[one + i], image[another + i]) = (image[another + i], image[one + i]);
    }

    private static void Mend(Span<byte> image, (int Start, int Length) record)
    {
        var bytes = image.Slice(record.Start, record.Length);
        BinaryPrimitives.WriteUInt32LittleEndian(bytes[^4..], ReferenceRecord.Checksum(bytes[..^4]));
    }
}
