namespace PupilBridge.Journal;

/// <summary>
/// The segment that is being written. It is made under another name, complete with header and synced, then renamed: a file
/// with a segment's name always begins with a whole header, unless the disk spoilt it later.
/// </summary>
internal sealed class SegmentWriter : IDisposable
{
    private readonly IJournalFile _file;
    private readonly byte[] _zeros;
    private long _preparedTo;

    private SegmentWriter(SegmentFile segment, IJournalFile file, byte[] zeros, SegmentCipher? cipher)
    {
        Segment = segment;
        Cipher = cipher;
        _file = file;
        _zeros = zeros;
        Length = SegmentHeader.ByteCount;
        _preparedTo = Length;
    }

    public SegmentFile Segment { get; }

    /// <summary>What encrypts its records; null where they are not encrypted. It belongs to the segment.</summary>
    public SegmentCipher? Cipher { get; }

    /// <summary>Where the next record goes.</summary>
    public long Length { get; private set; }

    /// <param name="disk">Where the journal lies.</param>
    /// <param name="folder">The journal.</param>
    /// <param name="header">The segment's header.</param>
    /// <param name="zeros">What is written ahead.</param>
    /// <param name="cipher">What encrypts its records, null for none; the segment owns it once it is made.</param>
    public static SegmentWriter Create(
        IJournalDisk disk,
        JournalFolder folder,
        SegmentHeader header,
        byte[] zeros,
        SegmentCipher? cipher
    )
    {
        string path = folder.InSegments(SegmentName.Of(header.Number));
        string unfinished = path + SegmentName.Unfinished;
        byte[] bytes = header.Encode();
        disk.Delete(unfinished);
        IJournalFile file = disk.Open(unfinished, JournalFileMode.CreateNew);
        var writer = new SegmentWriter(new(header.Number, path, header, ChainHash.Of(bytes)), file, zeros, cipher);
        try
        {
            file.Write(bytes, 0);
            writer.PrepareFor(0);
            file.Sync();
            disk.Rename(unfinished, path);
            disk.SyncFolder(folder.Segments);
            return writer;
        }
        catch
        {
            writer.Dispose();
            throw;
        }
    }

    /// <summary>Writes a sealed batch in one go and makes it durable.</summary>
    public void WriteDurably(ReadOnlySpan<byte> batch)
    {
        _file.Write(batch, Length);
        PrepareFor(batch.Length);
        _file.Sync();
        Length += batch.Length;
    }

    /// <summary>Gives back the zeros written ahead. If it fails they stay, which readers take for the end.</summary>
    public void TrimAndClose()
    {
        try
        {
            if (_file.Length > Length)
                _file.SetLength(Length);
        }
        catch (IOException)
        {
            // The zeros cost room, nothing else.
        }
        Dispose();
    }

    public void Dispose()
    {
        _file.Dispose();
        Cipher?.Dispose();
    }

    /// <summary>
    /// Writes zeros ahead, so that the syncs of many batches to come find the file's length and blocks already stored. They
    /// are written, not just reserved: a reserved block must be marked as written at its first sync, which costs as much.
    /// A disk without room for them may still have room for records, so that is no failure.
    /// </summary>
    private void PrepareFor(int batchBytes)
    {
        long needed = Length + batchBytes;
        if (_zeros.Length == 0 || needed < _preparedTo)
            return;
        try
        {
            _file.Write(_zeros, needed);
            _preparedTo = needed + _zeros.Length;
        }
        catch (DiskFullException)
        {
            _preparedTo = long.MaxValue;
        }
    }
}
