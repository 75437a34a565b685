using System.Buffers.Binary;
using System.Security.Cryptography;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Journal;

/// <summary>
/// Puts a segment in the clear in place of an encrypted one, and now and then all that follow; checksums and chain are put right from there to the end,
/// as they can be without a key. Or spoils its header and takes its key away.
/// </summary>
internal static class ClearInPlace
{
    private const int HeaderBytes = 256;

    /// <summary>Does it to a segment of an image, which keeps its length.</summary>
    public static void Put(Span<byte> image, ReadOnlySpan<SegmentPlace> files, ref Dice dice)
    {
        var one = dice.Any(files);
        var number = one.Number & ~SealedJournals.KeyFile;
        var (toTheEnd, headerGone, keyGone) = (dice.OneIn(2), dice.OneIn(4), dice.OneIn(2));
        Span<byte> chain = stackalloc byte[32];
        chain.Clear();
        foreach (var place in files)
        {
            var isReplaced = toTheEnd
                ? (place.Number & ~SealedJournals.KeyFile) >= number
                : (place.Number & ~SealedJournals.KeyFile) == number;
            var file = image.Slice(place.Start, place.Length);
            if ((place.Number & SealedJournals.KeyFile) != 0)
            {
                if (isReplaced && (headerGone || keyGone))
                    file.Clear();
            }
            else if (file.Length >= HeaderBytes)
            {
                if (isReplaced && !headerGone)
                    file.Slice(120, 20).Clear();
                if (!headerGone)
                    Chained(file, (place.Number & ~SealedJournals.KeyFile) >= number, chain);
                else if (isReplaced)
                    file[dice.Below(HeaderBytes)] ^= (byte)(1 << dice.Below(8));
            }
        }
    }

    /// <summary>Follows the chain through a segment, and puts it right where that is wanted.</summary>
    private static void Chained(Span<byte> segment, bool isMended, Span<byte> chain)
    {
        var header = segment[..HeaderBytes];
        if (isMended)
        {
            chain.CopyTo(header[48..]);
            BinaryPrimitives.WriteUInt32LittleEndian(header[252..], ReferenceRecord.Checksum(header[..252]));
        }

        SHA256.HashData(header, chain);
        for (var at = HeaderBytes; ReferenceRecord.LengthAt(segment[at..]) is > 0 and var length; at += length)
        {
            var record = segment.Slice(at, length);
            if (isMended)
            {
                chain.CopyTo(record[24..]);
                BinaryPrimitives.WriteUInt32LittleEndian(record[^4..], ReferenceRecord.Checksum(record[..^4]));
            }

            SHA256.HashData(record, chain);
        }
    }
}
