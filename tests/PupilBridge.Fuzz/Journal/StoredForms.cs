using System.Buffers.Binary;

namespace PupilBridge.Fuzz.Journal;

/// <summary>Whether a segment of an image may be read as standing in the clear, from docs/journal.md alone.</summary>
internal static class StoredForms
{
    private const int HeaderBytes = 256;
    private const int Encrypted = 2;

    /// <summary>
    /// By its header where that is sound; else not if the segment that follows from it says that it is encrypted, or nothing is said and it follows on
    /// an encrypted one that is as it was sealed and does not end in the word that the journal goes on in the clear.
    /// </summary>
    public static bool MayBeClear(
        ReadOnlySpan<byte> input,
        scoped in Image image,
        SegmentPlace place,
        SealedJournal known
    )
    {
        var segment = input.Slice(place.Start, place.Length);
        if (HasHeader(segment, place.Number))
            return BinaryPrimitives.ReadInt32LittleEndian(segment[120..]) == 0;
        Span<SegmentPlace> chain = stackalloc SegmentPlace[12];
        chain = chain[..Chain(input, image, chain)];
        var index = chain.IndexOf(place);
        if (index < 0)
            return true;
        // The chain was followed from its end.
        if (index > 0 && Says(input, chain[index - 1], place.Number) is not 0 and var form)
            return form != Encrypted;
        return index + 1 == chain.Length || !IsUntouchedAndSilent(input, chain[index + 1], known);
    }

    private static bool HasHeader(ReadOnlySpan<byte> segment, uint number) =>
        segment.Length >= HeaderBytes
        && segment.StartsWith("PBJOURNL"u8)
        && BinaryPrimitives.ReadUInt32LittleEndian(segment[252..]) == ReferenceRecord.Checksum(segment[..252])
        // A header of another file, or one that contradicts itself, is no header to the reader.
        && BinaryPrimitives.ReadInt64LittleEndian(segment[16..]) == number
        && BinaryPrimitives.ReadInt64LittleEndian(segment[24..])
            == BinaryPrimitives.ReadInt64LittleEndian(segment[40..]) + 1;

    private static int Says(ReadOnlySpan<byte> input, SegmentPlace next, uint number)
    {
        var segment = input.Slice(next.Start, next.Length);
        return
            HasHeader(segment, next.Number)
            && BinaryPrimitives.ReadInt64LittleEndian(segment[32..]) == number
            && BinaryPrimitives.ReadInt32LittleEndian(segment[144..]) is 1 or Encrypted
            ? BinaryPrimitives.ReadInt32LittleEndian(segment[144..])
            : 0;
    }

    private static bool IsUntouchedAndSilent(ReadOnlySpan<byte> input, SegmentPlace before, SealedJournal known)
    {
        Span<SegmentPlace> places = stackalloc SegmentPlace[12];
        foreach (var original in new Image(known.Image, places).Segments)
        {
            if (
                original.Number == before.Number
                && input
                    .Slice(before.Start, before.Length)
                    .SequenceEqual(known.Image.AsSpan(original.Start, original.Length))
            )
                return known.Records.LastOrDefault(r => r.Segment == before.Number) is { IsEncrypted: true } last
                    && !last.Payload.AsSpan().SequenceEqual(SealedJournals.Word);
        }

        return false;
    }

    /// <summary>The segments that make up the journal, the last one first.</summary>
    private static int Chain(ReadOnlySpan<byte> input, scoped in Image image, Span<SegmentPlace> chain)
    {
        var count = 0;
        for (var at = Below(image, uint.MaxValue); at is { } place; )
        {
            chain[count++] = place;
            var segment = input.Slice(place.Start, place.Length);
            if (!HasHeader(segment, place.Number))
            {
                at = Below(image, place.Number);
                continue;
            }

            var named = BinaryPrimitives.ReadInt64LittleEndian(segment[32..]);
            if (named == 0)
                break;
            at =
                named < place.Number && Named(image, named) is { } predecessor
                    ? predecessor
                    : Below(image, place.Number);
        }

        return count;
    }

    private static SegmentPlace? Named(scoped in Image image, long number)
    {
        foreach (var place in image.Segments)
        {
            if (place.Number == number)
                return place;
        }

        return null;
    }

    private static SegmentPlace? Below(scoped in Image image, uint number)
    {
        SegmentPlace? highest = null;
        foreach (var place in image.Segments)
        {
            var isSegment = (place.Number & SealedJournals.KeyFile) == 0;
            if (isSegment && place.Number < number && (highest is null || place.Number > highest.Value.Number))
                highest = place;
        }

        return highest;
    }
}
