using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;
using PupilBridge.Journal;

namespace PupilBridge.Fuzz.Journal;

/// <summary>
/// Journals with changed records through reader and verifier: no record comes out that no segment soundly holds; the verifier says something
/// of every journal that is not sound by the reference, and nothing of one that is; and a journal that leads to a head that was kept elsewhere
/// has the very entries that led there. An input is an <see cref="Image"/>; each has at least one changed record, and counts as one.
/// </summary>
/// <param name="journal">The reader and verifier that are tried; a test puts spoilt ones here.</param>
internal sealed class JournalTarget(IJournalUnderTest? journal = null) : IFuzzTarget
{
    private readonly IJournalUnderTest journal = journal ?? new ProductJournal();
    private readonly ImageDisk disk = new();
    private readonly List<JournalRecord> read = [];

    public IReadOnlyList<byte[]> Seeds { get; } =
    [.. BaseJournals.All.Select(b => b.Image), .. FailedBefore.Of("journal")];

    public int MaxBytes => 8192;

    public long Units { get; private set; }

    public int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice) =>
        ImageMutator.Change(from, other, into, ref dice);

    public ulong Run(ReadOnlySpan<byte> input)
    {
        Units++;
        Span<SegmentPlace> places = stackalloc SegmentPlace[12];
        var image = new Image(input, places);
        if (HasTwoOfOneNumber(image.Segments))
            return 0;
        disk.Hold(input, image);
        try
        {
            return Judge(input, image);
        }
        catch (JournalFormatException)
        {
            // A newer format, or encrypted: refused as a whole, and so it says.
            return 1;
        }
    }

    private ulong Judge(ReadOnlySpan<byte> input, scoped in Image image)
    {
        var isSound = ReferenceJournal.IsSound(input, image, out var records);
        try
        {
            Read(input, image);
        }
        catch (JournalKeyException)
        {
            // A header that says its records are encrypted, without a key: nothing is read, and the verifier looks all the same.
            isSound = false;
        }

        var known = BaseJournals.All[image.Base % BaseJournals.All.Count];
        var report = journal.Verify(disk, known.Head);
        var others = report.Problems.Count(p => p.Kind != ProblemKind.OtherHead);
        if (isSound && (others > 0 || read.Count != records || report.Records != records))
            throw new Finding(
                "The verifier finds fault with a sound journal",
                $"{report.Summary} {string.Join(' ', report.Problems)}"
            );
        if (!isSound && others == 0)
            throw new Finding("The verifier passes a journal that is not sound", report.Summary);
        if (report.IsSound)
            LeadsThere(known);
        return Behaviour(report, isSound);
    }

    private void Read(ReadOnlySpan<byte> input, scoped in Image image)
    {
        read.Clear();
        var last = 0L;
        foreach (var record in journal.Read(disk))
        {
            if (record.Sequence <= last)
                throw new Finding("The reader gives a sequence twice, or goes back", $"{record.Sequence} after {last}");
            last = record.Sequence;
            read.Add(record);
            if (read.Count > input.Length / 61)
                throw new Finding("The reader gives more records than there can be", $"{read.Count}");
            if (!ReferenceJournal.Holds(input, image, record.Sequence, (int)record.Class, record.Payload.Span))
                throw new Finding(
                    "The reader gives a record that stands nowhere",
                    $"{record.Sequence} {Readable.Of(record.Payload.Span)}"
                );
        }
    }

    /// <summary>No damage, and the head that was kept elsewhere was met: then everything up to it is as it was written.</summary>
    private void LeadsThere(BaseJournal known)
    {
        var entries = read.Where(r => r.Class == RecordClass.Entry && r.Sequence <= known.Head.Sequence).ToList();
        var same = entries.Count >= known.Entries.Count;
        for (var i = 0; same && i < known.Entries.Count; i++)
            same = entries[i].Payload.Span.SequenceEqual(known.Entries[i]);
        if (!same)
            throw new Finding(
                "A journal leads to the head, but with other entries",
                $"{entries.Count} of {known.Entries.Count}"
            );
    }

    private ulong Behaviour(VerifyReport report, bool isSound)
    {
        var signature = new Signature();
        signature.Add(isSound ? 1 : 0);
        var kinds = 0;
        foreach (var problem in report.Problems)
            kinds |= 1 << (int)problem.Kind;
        signature.Add(kinds);
        signature.Bucket(report.Problems.Count);
        signature.Add(report.Segments);
        signature.Bucket(read.Count);
        signature.Add(read.Any(r => r.AfterDamage) ? 1 : 0);
        signature.Add(report.EndsCleanly ? 1 : 0);
        return signature.Bits;
    }

    private static bool HasTwoOfOneNumber(ReadOnlySpan<SegmentPlace> places)
    {
        for (var i = 0; i < places.Length; i++)
        {
            // Number 0 is no segment's: such a file is none to the journal, and the reference would take it for one.
            if (places[i].Number == 0)
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
