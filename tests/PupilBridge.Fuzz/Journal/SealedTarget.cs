using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;
using PupilBridge.Journal;

namespace PupilBridge.Fuzz.Journal;

/// <summary>
/// Encrypted segments under their key: whatever is done to ciphertext, tags, sequences, headers and key files by somebody who can mend every
/// checksum, no record comes out of an encrypted segment that was not sealed in it under that sequence and class; with another key or none
/// nothing does; refusals are the reader's own, with words; and a journal that nothing was done to is read whole. With the key and without any head
/// kept elsewhere, the verifier passes nothing in the clear after an encrypted record that does not say so. An input is an
/// <see cref="Image"/> of segments and key files; its second byte says which master keys are at hand.
/// </summary>
/// <param name="journal">The reader and verifier that are tried; a test puts spoilt ones here.</param>
/// <remarks>
/// A segment whose header says that it is in the clear is read as such, and told of; nobody can tell where nothing before it is encrypted, or where it
/// stands in place of what followed on a word that the journal goes on in the clear: that shows against a head kept elsewhere.
/// </remarks>
internal sealed class SealedTarget(ISealedJournalUnderTest? journal = null) : IFuzzTarget
{
    private const int HeaderBytes = 256;
    private readonly ISealedJournalUnderTest journal = journal ?? new ProductSealedJournal();
    private readonly ImageDisk disk = new();

    public IReadOnlyList<byte[]> Seeds { get; } =
    [.. SealedJournals.All.Select(b => b.Image), .. FailedBefore.Of("sealed-journal")];

    public int MaxBytes => 24_576;

    public long Units { get; private set; }

    public int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice) =>
        SealedMutator.Change(from, other, into, ref dice);

    public ulong Run(ReadOnlySpan<byte> input)
    {
        Units++;
        Span<SegmentPlace> places = stackalloc SegmentPlace[12];
        var image = new Image(input, places);
        if (HasTwoOfOneName(image.Segments))
            return 0;
        disk.Hold(input, image);
        var known = SealedJournals.All[image.Base % SealedJournals.All.Count];
        var ring = input.Length > 1 ? input[1] % SealedJournals.Rings.Count : 0;
        var signature = new Signature();
        signature.Add(ring);
        var (isWhole, forged) = Read(input, image, known, ring, ref signature);
        if (input.SequenceEqual(known.Image) && !isWhole)
            throw new Finding("A sound encrypted journal is not read whole", $"{known.Records.Count} records");
        if (forged is { } unseen && ring == 0 && Verify(null, ring, ref signature))
            throw new Finding(
                "The verifier passes a record in the clear after encrypted ones that do not say so",
                $"{unseen.Sequence} {Readable.Of(unseen.Payload.Span)}"
            );
        if (Verify(known.Head, ring, ref signature) && ring == 0 && !isWhole)
            throw new Finding(
                "The verifier passes an encrypted journal up to its head that does not read as it was written",
                ""
            );
        return signature.Bits;
    }

    /// <returns>Whether all that was sealed came out, and the first record in the clear that nothing under the key announces.</returns>
    private (bool IsWhole, JournalRecord? Forged) Read(
        ReadOnlySpan<byte> input,
        scoped in Image image,
        SealedJournal known,
        int ring,
        ref Signature signature
    )
    {
        var (last, sealedOnes, all) = (0L, 0, 0);
        var (mayBeClear, forged) = (true, (JournalRecord?)null);
        try
        {
            foreach (var record in journal.Read(disk, SealedJournals.Rings[ring]))
            {
                if (record.Sequence <= last)
                    throw new Finding(
                        "The reader gives a sequence twice, or goes back",
                        $"{record.Sequence} after {last}"
                    );
                last = record.Sequence;
                all++;
                if (ring == 0 && Sealed(known, record) is { } one)
                {
                    sealedOnes++;
                    if (one.IsEncrypted)
                        mayBeClear = one.Payload.AsSpan().SequenceEqual(SealedJournals.Word);
                    else if (!mayBeClear)
                        forged ??= record;
                    continue;
                }

                if (!mayBeClear)
                    forged ??= record;
                if (!StandsInTheClear(input, image, record, known))
                    throw new Finding(
                        "A record comes out of an encrypted segment that was not sealed in it",
                        $"{record.Sequence} {Readable.Of(record.Payload.Span)}"
                    );
            }
        }
        catch (JournalException refused) when (refused is JournalKeyException or JournalFormatException)
        {
            if (refused.Message.Length < 40)
                throw new Finding("An encrypted journal is refused without words", refused.Message);
            signature.Add(refused is JournalKeyException ? 2 : 3);
        }

        signature.Bucket(sealedOnes);
        signature.Bucket(all - sealedOnes);
        return (sealedOnes == known.Records.Count, forged);
    }

    /// <returns>Whether it found nothing to say and came by the head.</returns>
    private bool Verify(JournalPosition? head, int ring, ref Signature signature)
    {
        try
        {
            var report = journal.Verify(disk, SealedJournals.Rings[ring], head);
            var kinds = report.Problems.Aggregate(0, (bits, problem) => bits | (1 << (int)problem.Kind));
            signature.Add(kinds);
            signature.Bucket((int)report.OpenedRecords);
            return report.IsSound;
        }
        catch (JournalFormatException)
        {
            signature.Add(4);
            return false;
        }
    }

    private static SealedRecord? Sealed(SealedJournal known, JournalRecord record) =>
        known.Records.FirstOrDefault(one =>
            one.Sequence == record.Sequence
            && one.Class == (int)record.Class
            && one.Payload.AsSpan().SequenceEqual(record.Payload.Span)
        );

    private static bool StandsInTheClear(
        ReadOnlySpan<byte> input,
        scoped in Image image,
        JournalRecord record,
        SealedJournal known
    )
    {
        foreach (var place in image.Segments)
        {
            if ((place.Number & SealedJournals.KeyFile) != 0)
                continue;
            var segment = input.Slice(place.Start, place.Length);
            if (!StoredForms.MayBeClear(input, image, place, known))
                continue;
            for (var at = HeaderBytes; at < segment.Length; at++)
            {
                if (
                    ReferenceRecord.IsSound(segment[at..], out var there)
                    && there.Sequence == record.Sequence
                    && there.Class == (int)record.Class
                    && there.Payload.SequenceEqual(record.Payload.Span)
                )
                    return true;
            }
        }

        return false;
    }

    private static bool HasTwoOfOneName(ReadOnlySpan<SegmentPlace> places)
    {
        for (var i = 0; i < places.Length; i++)
        {
            // Number 0 is no segment's.
            if ((places[i].Number & ~SealedJournals.KeyFile) == 0)
                return true;
            foreach (var other in places[..i])
            {
                if (other.Number == places[i].Number)
                    return true;
            }
        }

        return false;
    }
}
