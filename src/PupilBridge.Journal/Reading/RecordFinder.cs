namespace PupilBridge.Journal;

/// <summary>
/// Finds one record by its sequence without walking the chain: from record to record of its segment, each judged by its own bytes, and
/// only around the one that is wanted by the chain as well.
/// </summary>
internal static class RecordFinder
{
    /// <summary>Looks for a record.</summary>
    /// <returns>Null if the way to it is not sound; then only a walk can tell what is there.</returns>
    public static JournalRecord? Find(IJournalDisk disk, JournalFolder folder, long sequence)
    {
        var chain = SegmentChain.Load(disk, folder);
        var segment = chain.Segments.LastOrDefault(s => s.Header is { } header && header.FirstSequence <= sequence);
        if (segment?.Header is not { } first)
            return null;
        using var cipher = SegmentKeyStore.Open(disk, folder, segment);
        using var cursor = new SegmentCursor(disk.Open(segment.Path, JournalFileMode.Read));
        var (at, expected) = ((long)SegmentHeader.ByteCount, first.FirstSequence);
        var before = segment.HeaderHash;
        while (cursor.At(at) == CursorStep.Record && RecordLayout.ReadSequence(cursor.Record) == expected)
        {
            if (expected == sequence)
                return Chained(cursor, at, before, cipher);
            // The hash of the one before it is all that the chain needs here.
            if (expected == sequence - 1)
                before = ChainHash.Of(cursor.Record);
            at += cursor.Record.Length;
            expected++;
        }

        return null;
    }

    /// <summary>The record at a place, if it follows on the one before it and the one after it follows on it.</summary>
    private static JournalRecord? Chained(SegmentCursor cursor, long at, ChainHash before, SegmentCipher? cipher)
    {
        var record = cursor.Record.ToArray();
        if (RecordLayout.ReadPrevious(record) != before)
            return null;
        var hasNext = cursor.At(at + record.Length) == CursorStep.Record;
        if (hasNext && RecordLayout.ReadPrevious(cursor.Record) != ChainHash.Of(record))
            return null;
        var payload = cipher is null ? RecordLayout.PayloadOf(record).ToArray() : cipher.Open(record);
        return payload is null
            ? null
            : new JournalRecord(
                RecordLayout.ReadSequence(record),
                RecordLayout.ReadClass(record),
                payload,
                AfterDamage: false
            )
            {
                Hash = ChainHash.Of(record),
            };
    }
}
