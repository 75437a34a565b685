using PupilBridge.Journal;

namespace PupilBridge.Fuzz.Journal;

/// <summary>A file in memory. It counts what is read of it, so that a reader that goes in circles is found.</summary>
internal sealed class MemoryFile : IJournalFile
{
    private byte[] bytes = new byte[4096];

    public long Length { get; private set; }

    /// <summary>How often it was read since it was filled.</summary>
    public int Reads { get; private set; }

    public void Hold(ReadOnlySpan<byte> content)
    {
        SetLength(content.Length);
        content.CopyTo(bytes);
        Reads = 0;
    }

    public byte[] Copy() => bytes[..(int)Length];

    public int Read(Span<byte> buffer, long offset)
    {
        Reads++;
        var count = (int)Math.Clamp(Length - offset, 0, buffer.Length);
        bytes.AsSpan((int)Math.Min(offset, Length), count).CopyTo(buffer);
        return count;
    }

    public void Write(ReadOnlySpan<byte> content, long offset)
    {
        if (offset + content.Length > Length)
            SetLength(offset + content.Length);
        content.CopyTo(bytes.AsSpan((int)offset));
    }

    public void Sync() { }

    public void SetLength(long length)
    {
        if (length > bytes.Length)
            Array.Resize(ref bytes, (int)Math.Max(length, bytes.Length * 2));
        if (length > Length)
            bytes.AsSpan((int)Length, (int)(length - Length)).Clear();
        Length = length;
    }

    public void Dispose() { }
}
