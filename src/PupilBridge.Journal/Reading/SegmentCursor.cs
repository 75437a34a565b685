using System.Buffers;

namespace PupilBridge.Journal;

/// <summary>What stands at a place of a segment.</summary>
internal enum CursorStep
{
    /// <summary>A record that passes its checksum; whether it belongs here is the walk's question.</summary>
    Record,

    /// <summary>Nothing more: the end of the file, or zeros written ahead up to it.</summary>
    End,

    /// <summary>Bytes that are no record.</summary>
    Bad,
}

/// <summary>
/// Reads a segment record by record, judging each by its own bytes alone. Stateless but for a window of the file.
/// </summary>
internal sealed class SegmentCursor(IJournalFile file) : IDisposable
{
    private const int BlockBytes = 4096;
    private readonly byte[] _window = ArrayPool<byte>.Shared.Rent(4 * RecordLayout.MaxRecordBytes);
    private long _windowAt;
    private int _windowLength;
    private int _recordAt;
    private int _recordLength;
    private bool _disposed;

    /// <summary>The bytes of the record that was found last; valid until the next call.</summary>
    public ReadOnlySpan<byte> Record => _window.AsSpan(_recordAt, _recordLength);

    public long FileLength => file.Length;

    /// <summary>The first place met that the disk could not read; null when there was none.</summary>
    public long? UnreadableAt { get; private set; }

    /// <summary>Looks at what stands at an offset.</summary>
    public CursorStep At(long offset)
    {
        ReadOnlySpan<byte> bytes = View(offset, RecordLayout.MaxRecordBytes);
        if (!RecordLayout.IsSound(bytes))
        {
            // The window may be older than what a running writer has put there since.
            _windowLength = 0;
            bytes = View(offset, RecordLayout.MaxRecordBytes);
        }
        if (RecordLayout.IsSound(bytes))
        {
            _recordAt = (int)(offset - _windowAt);
            _recordLength = RecordLayout.RecordBytes(bytes);
            return CursorStep.Record;
        }
        return IsZeroFrom(offset) ? CursorStep.End : CursorStep.Bad;
    }

    /// <summary>
    /// The first offset from <paramref name="offset"/> at which a sound record with a higher sequence begins, or -1.
    /// Where the length field of what stands at the offset is still right, the record after it is found at once.
    /// </summary>
    public long FindRecord(long offset, long afterSequence)
    {
        int claimed = RecordLayout.RecordBytes(View(offset, RecordLayout.MaxRecordBytes));
        if (claimed > 0 && IsLater(offset + claimed, afterSequence) && !IsLater(offset, afterSequence))
            return offset + claimed;
        long length = file.Length;
        for (long at = offset; at + RecordLayout.OverheadBytes < length; at++)
        {
            if (IsLater(at, afterSequence))
                return at;
        }
        return -1;
    }

    /// <summary>Whether only zeros, or nothing, stand from an offset to the end of the file.</summary>
    public bool IsZeroFrom(long offset)
    {
        while (true)
        {
            ReadOnlySpan<byte> bytes = View(offset, RecordLayout.MaxRecordBytes);
            if (bytes.IsEmpty)
                return true;
            if (bytes.ContainsAnyExcept((byte)0))
                return false;
            offset += bytes.Length;
        }
    }

    public void Dispose()
    {
        if (_disposed)
            return;
        _disposed = true;
        ArrayPool<byte>.Shared.Return(_window);
        file.Dispose();
    }

    private bool IsLater(long offset, long afterSequence)
    {
        ReadOnlySpan<byte> bytes = View(offset, RecordLayout.MaxRecordBytes);
        return bytes.Length >= RecordLayout.OverheadBytes
            && RecordLayout.ReadSequence(bytes) > afterSequence
            && RecordLayout.IsSound(bytes);
    }

    /// <summary>Up to <paramref name="count"/> bytes from an offset; fewer only at the end of the file.</summary>
    private ReadOnlySpan<byte> View(long offset, int count)
    {
        if (offset < _windowAt || offset + count > _windowAt + _windowLength)
            Fill(offset, count);
        int start = (int)Math.Min(offset - _windowAt, _windowLength);
        return _window.AsSpan(start, Math.Min(count, _windowLength - start));
    }

    private void Fill(long offset, int count)
    {
        // At the end of the file the window stays short; it is read again only when the file may have grown.
        bool atKnownEnd = offset >= _windowAt && _windowAt + _windowLength >= file.Length && _windowLength > 0;
        if (atKnownEnd && offset - _windowAt <= _windowLength && _window.Length - (offset - _windowAt) >= count)
            return;
        _windowAt = offset;
        try
        {
            _windowLength = file.Read(_window, offset);
        }
        catch (IOException)
        {
            _windowLength = ReadAround(offset);
        }
    }

    /// <summary>Reads what can be read block by block; the rest becomes bytes that are no record.</summary>
    private int ReadAround(long offset)
    {
        int wanted = (int)Math.Clamp(file.Length - offset, 0, _window.Length);
        for (int at = 0; at < wanted; )
        {
            int count = Math.Min(wanted - at, BlockBytes - (int)((offset + at) % BlockBytes));
            Span<byte> block = _window.AsSpan(at, count);
            try
            {
                file.Read(block, offset + at);
            }
            catch (IOException)
            {
                block.Fill(byte.MaxValue);
                UnreadableAt ??= offset + at;
            }
            at += count;
        }
        return wanted;
    }
}
