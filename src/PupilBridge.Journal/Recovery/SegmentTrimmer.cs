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

    /// <summary>
    /// Cuts off what lies beyond an offset, and makes what stays durable. The latter also where there is nothing to cut: a
    /// process that died between a write and its sync leaves records that can be read and are not on the disk yet, and the
    /// next segment is about to vouch for them.
    /// </summary>
    public static void Trim(IJournalDisk disk, string path, long offset)
    {
        using IJournalFile file = disk.Open(path, JournalFileMode.ReadWrite);
        if (file.Length > offset)
            file.SetLength(offset);
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
