namespace PupilBridge.Journal;

/// <summary>One segment of a journal, for those who copy it.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Path">Its full path.</param>
/// <param name="Before">The position that it follows on; the default where its header is damaged.</param>
/// <param name="Start">The chain's value after its header, which proves all that is before; null where the header is damaged.</param>
/// <param name="DurableTo">The last sequence in it that counts; null for the last segment, whose end only its writer knows.</param>
public sealed record JournalSegment(long Number, string Path, JournalPosition Before, ChainHash? Start, long? DurableTo)
{
    /// <summary>The segments that make up a journal, in order. Those that were abandoned are not among them.</summary>
    /// <param name="disk">Where the journal lies.</param>
    /// <param name="folder">The journal.</param>
    /// <exception cref="JournalFormatException">The journal was written by a newer program.</exception>
    public static IReadOnlyList<JournalSegment> ListOf(IJournalDisk disk, JournalFolder folder)
    {
        ArgumentNullException.ThrowIfNull(disk);
        ArgumentNullException.ThrowIfNull(folder);
        SegmentChain chain = SegmentChain.Load(disk, folder);
        List<JournalSegment> segments = [];
        for (int i = 0; i < chain.Segments.Count; i++)
        {
            SegmentFile file = chain.Segments[i];
            bool isLast = i + 1 == chain.Segments.Count;
            segments.Add(
                new JournalSegment(
                    file.Number,
                    file.Path,
                    file.Header?.Predecessor ?? default,
                    file.Header is null ? null : file.HeaderHash,
                    isLast ? null : chain.DurableLimit(i)
                )
            );
        }
        return segments;
    }

    /// <summary>The name of a segment's file.</summary>
    /// <param name="number">The segment's number.</param>
    public static string NameOf(long number) => SegmentName.Of(number);
}
