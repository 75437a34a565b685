namespace PupilBridge.Journal;

/// <summary>What a run through the bytes of a segment found.</summary>
/// <param name="Number">The segment's number, as in its header.</param>
/// <param name="Before">The position that it follows on.</param>
/// <param name="Start">The chain's value after its header.</param>
/// <param name="End">The last position copied.</param>
/// <param name="Bytes">How many bytes were copied.</param>
/// <param name="Passed">Whether it leads through the position that was looked for.</param>
public sealed record SegmentExtent(
    long Number,
    JournalPosition Before,
    ChainHash Start,
    JournalPosition End,
    long Bytes,
    bool Passed
);

/// <summary>
/// Copies a segment from a stream, and checks it on the way: header, and each record's checksum, sequence and place in the chain. It
/// reads forward once, in constant memory, and needs no key: the chain is over what is stored.
/// </summary>
public static class SegmentCopy
{
    /// <summary>Copies a segment up to a sequence, or as far as whole records that follow on each other go.</summary>
    /// <param name="from">The segment's bytes from its beginning.</param>
    /// <param name="to">Where they go; <see cref="Stream.Null"/> to check them only.</param>
    /// <param name="upTo">The last sequence to copy.</param>
    /// <param name="lookFor">A position to look for on the way.</param>
    /// <exception cref="SegmentBrokenException">The header is damaged, or the records end before that sequence.</exception>
    /// <exception cref="IOException">The one cannot be read, or the other not be written.</exception>
    public static SegmentExtent Copy(Stream from, Stream to, long upTo, JournalPosition lookFor = default)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        byte[] bytes = new byte[RecordLayout.MaxRecordBytes];
        int count = from.ReadAtLeast(bytes.AsSpan(0, SegmentHeader.ByteCount), SegmentHeader.ByteCount, false);
        SegmentHeader header =
            SegmentHeader.TryDecode(bytes.AsSpan(0, count))
            ?? throw new SegmentBrokenException("its header is damaged or missing");
        ChainHash start = ChainHash.Of(bytes.AsSpan(0, count));
        JournalPosition end = new(header.Predecessor.Sequence, start);
        to.Write(bytes, 0, count);
        long copied = count;
        bool passed = header.Predecessor == lookFor || end == lookFor;
        while (end.Sequence < upTo)
        {
            int length = ReadRecord(from, bytes, end);
            if (length == 0)
                throw new SegmentBrokenException(
                    $"sound records end at sequence {end.Sequence}, and {upTo} was recorded"
                );
            to.Write(bytes, 0, length);
            copied += length;
            end = new(end.Sequence + 1, ChainHash.Of(bytes.AsSpan(0, length)));
            passed |= end == lookFor;
        }
        return new SegmentExtent(header.Number, header.Predecessor, start, end, copied, passed);
    }

    /// <summary>Reads the next record to the beginning of a buffer; 0 if none that follows is there.</summary>
    private static int ReadRecord(Stream from, byte[] bytes, JournalPosition before)
    {
        if (from.ReadAtLeast(bytes.AsSpan(0, 4), 4, false) < 4)
            return 0;
        int length = RecordLayout.RecordBytes(bytes.AsSpan(0, 4));
        if (length == 0)
            return 0;
        int rest = from.ReadAtLeast(bytes.AsSpan(4, length - 4), length - 4, false);
        ReadOnlySpan<byte> record = bytes.AsSpan(0, length);
        bool follows =
            rest == length - 4
            && RecordLayout.IsSound(record)
            && RecordLayout.ReadSequence(record) == before.Sequence + 1
            && RecordLayout.ReadPrevious(record) == before.Hash;
        return follows ? length : 0;
    }
}
