namespace PupilBridge.Journal;

/// <summary>Takes what lies beyond the last durable record off a segment, keeping a copy of anything but zeros.</summary>
internal static class SegmentTrimmer
{
    private const int ChunkBytes = 1 << 20;

    /// <summary>
    /// Copies the bytes beyond an offset to a file of their own, makes the copy durable, and only then cuts them off.
    /// Interrupted anywhere, it can be done again.
    /// </summary>
    public static JournalNotice SetAside(IJournalDisk disk, JournalFolder folder, SegmentFile segment, long offset)
    {
        string name = SegmentName.SetAside(segment.Number, offset);
        string path = folder.InSegments(name);
        long bytes = Copy(disk, segment.Path, offset, path + SegmentName.Unfinished);
        disk.Delete(path);
        disk.Rename(path + SegmentName.Unfinished, path);
        disk.SyncFolder(folder.Segments);
        Trim(disk, segment.Path, offset);
        string text =
            $"Bytes of an unfinished write in {segment.Name} were set aside in {name}; none were acknowledged.";
        return new JournalNotice(ProblemKind.TornTail, segment.Name, offset, bytes, 0, 0, text);
    }

    /// <summary>Cuts off what lies beyond an offset.</summary>
    public static void Trim(IJournalDisk disk, string path, long offset)
    {
        using IJournalFile file = disk.Open(path, JournalFileMode.ReadWrite);
        if (file.Length <= offset)
            return;
        file.SetLength(offset);
        file.Sync();
    }

    /// <summary>
    /// Writes bytes over themselves and syncs. What a process wrote last before it died can be read and need not be on the disk:
    /// it was not synced, or its sync failed, after which the operating system takes lost pages for stored ones and no further sync
    /// brings them there. Nobody but that process knew; so what the next segment is about to vouch for is written once more.
    /// </summary>
    /// <param name="disk">Where the segment lies.</param>
    /// <param name="path">The segment.</param>
    /// <param name="from">The beginning of its last commit.</param>
    /// <param name="to">The end of it.</param>
    public static void WriteAgain(IJournalDisk disk, string path, long from, long to)
    {
        using IJournalFile file = disk.Open(path, JournalFileMode.ReadWrite);
        byte[] chunk = new byte[Math.Min(ChunkBytes, Math.Max(0, to - from))];
        for (long at = from; at < to; )
        {
            int count = file.Read(chunk.AsSpan(0, (int)Math.Min(chunk.Length, to - at)), at);
            if (count == 0)
                break;
            file.Write(chunk.AsSpan(0, count), at);
            at += count;
        }
        file.Sync();
    }

    private static long Copy(IJournalDisk disk, string from, long offset, string to)
    {
        disk.Delete(to);
        using IJournalFile source = disk.Open(from, JournalFileMode.Read);
        using IJournalFile copy = disk.Open(to, JournalFileMode.CreateNew);
        byte[] chunk = new byte[ChunkBytes];
        long at = 0;
        for (int count; (count = source.Read(chunk, offset + at)) > 0; at += count)
            copy.Write(chunk.AsSpan(0, count), at);
        copy.Sync();
        return at;
    }
}
