namespace PupilBridge.Journal;

/// <summary>A segment file as its header tells.</summary>
/// <param name="Number">Its number, from its name.</param>
/// <param name="Path">Its full path.</param>
/// <param name="Header">Its header, null when that is damaged.</param>
/// <param name="HeaderHash">The chain's value after the header; the default when it is damaged.</param>
internal sealed record SegmentFile(long Number, string Path, SegmentHeader? Header, ChainHash HeaderHash)
{
    /// <summary>What the disk said when the header could not be read; null when it could.</summary>
    public IOException? Unreadable { get; init; }

    public string Name => System.IO.Path.GetFileName(Path);
}

/// <summary>
/// The segments that make up the journal, in order: from the highest number back along what each says of its predecessor.
/// A segment that no successor names was abandoned before its first record was durable, and is off the chain.
/// </summary>
internal sealed class SegmentChain
{
    private SegmentChain(List<SegmentFile> segments, List<SegmentFile> abandoned, List<JournalProblem> problems)
    {
        Segments = segments;
        Abandoned = abandoned;
        Problems = problems;
    }

    public IReadOnlyList<SegmentFile> Segments { get; }

    public IReadOnlyList<SegmentFile> Abandoned { get; }

    public IReadOnlyList<JournalProblem> Problems { get; }

    /// <summary>How far the segment's successor says that it was durable, -1 when it is the last or this is not known.</summary>
    public long DurableLimit(int index) =>
        index + 1 < Segments.Count ? Segments[index + 1].Header?.Predecessor.Sequence ?? -1 : -1;

    /// <summary>The highest sequence that a segment can hold, by the nearest later segment whose header is sound.</summary>
    private long Ceiling(int index) =>
        Segments.Skip(index + 1).FirstOrDefault(s => s.Header is not null)?.Header!.Predecessor.Sequence
        ?? long.MaxValue;

    /// <summary>Opens a walk through a segment.</summary>
    /// <param name="disk">Where it lies.</param>
    /// <param name="index">Which one.</param>
    /// <param name="before">The position at which the segment before it ended; used when the header is damaged.</param>
    public SegmentWalk Walk(IJournalDisk disk, int index, JournalPosition before)
    {
        SegmentFile segment = Segments[index];
        var cursor = new SegmentCursor(disk.Open(segment.Path, JournalFileMode.Read));
        return segment.Header is { } header
            ? new SegmentWalk(
                cursor,
                new(header.Predecessor.Sequence, segment.HeaderHash),
                true,
                DurableLimit(index),
                Ceiling(index)
            )
            : new SegmentWalk(cursor, before, chainKnown: false, DurableLimit(index), Ceiling(index));
    }

    /// <exception cref="JournalFormatException">A segment is of a newer format, or protected in a way that is not known.</exception>
    public static SegmentChain Load(IJournalDisk disk, JournalFolder folder)
    {
        List<SegmentFile> files = [];
        foreach (string name in disk.List(folder.Segments))
        {
            if (SegmentName.TryParse(name, out long number))
                files.Add(ReadHeader(disk, folder.InSegments(name), number));
        }
        List<SegmentFile> chain = [];
        List<JournalProblem> problems = [];
        for (SegmentFile? at = files.LastOrDefault(); at is not null; at = Predecessor(files, at, problems))
            chain.Insert(0, at);
        foreach (SegmentFile damaged in chain.Where(s => s.Header is null))
            problems.Add(JournalProblem.DamagedHeader(damaged.Name));
        return new SegmentChain(chain, [.. files.Except(chain)], problems);
    }

    private static SegmentFile ReadHeader(IJournalDisk disk, string path, long number)
    {
        byte[] bytes = new byte[SegmentHeader.ByteCount];
        int count;
        try
        {
            using IJournalFile file = disk.Open(path, JournalFileMode.Read);
            count = file.Read(bytes, 0);
        }
        catch (IOException e)
        {
            return new SegmentFile(number, path, null, default) { Unreadable = e };
        }
        SegmentHeader? header = SegmentHeader.TryDecode(bytes.AsSpan(0, count));
        if (header is not null)
            RefuseUnknown(header, path);
        bool sound = header is not null && header.Number == number;
        return new SegmentFile(number, path, sound ? header : null, sound ? ChainHash.Of(bytes) : default);
    }

    private static void RefuseUnknown(SegmentHeader header, string path)
    {
        if (header.Version > SegmentHeader.CurrentVersion || header.Version < 1)
            throw new JournalFormatException(
                $"{path} is written in journal format {header.Version}; this program knows formats up to "
                    + $"{SegmentHeader.CurrentVersion}. Nothing was changed. Start the version of the program that wrote it, or a newer one."
            );
        if (header.Protection is not (0 or SegmentHeader.AesGcmProtection))
            throw new JournalFormatException(
                $"{path} is protected by method {header.Protection}, which this program does not know. Nothing was changed. "
                    + "Start the version of the program that wrote it, or a newer one."
            );
    }

    private static SegmentFile? Predecessor(List<SegmentFile> files, SegmentFile at, List<JournalProblem> problems)
    {
        SegmentFile? below = files.LastOrDefault(f => f.Number < at.Number);
        if (at.Header is null)
            return below;
        if (at.Header.PredecessorNumber == 0)
            return null;
        SegmentFile? named = files.Find(f => f.Number == at.Header.PredecessorNumber && f.Number < at.Number);
        if (named is null)
            problems.Add(JournalProblem.MissingSegment(SegmentName.Of(at.Header.PredecessorNumber), at.Name));
        return named ?? below;
    }
}
