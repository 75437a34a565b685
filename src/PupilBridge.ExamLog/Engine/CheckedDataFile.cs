using Microsoft.Win32.SafeHandles;

namespace PupilBridge.ExamLog;

/// <summary>
/// The engine's data file as the engine is given it: whole pages in and out, each compared with its check sum when it is read and
/// summed when it is written. So a start need not read the whole file, and what rots under a running service is found at its next
/// reading.
/// </summary>
/// <remarks>The engine takes turns with its streams; only <see cref="PageSums"/> is shared with others.</remarks>
internal sealed class CheckedDataFile : Stream
{
    private readonly SafeFileHandle file;
    private readonly PageSums sums;

    public CheckedDataFile(string path, PageSums sums)
    {
        this.sums = sums;
        file = File.OpenHandle(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.ReadWrite);
    }

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => true;

    public override long Length => RandomAccess.GetLength(file);

    public override long Position { get; set; }

    /// <summary>Reads whole pages.</summary>
    /// <exception cref="InvalidDataException">A page is not as it was written.</exception>
    public override int Read(Span<byte> buffer)
    {
        RequireWholePages(buffer.Length);
        var count = 0;
        for (int read; count < buffer.Length; count += read)
        {
            read = RandomAccess.Read(file, buffer[count..], Position + count);
            if (read == 0)
            {
                break;
            }
        }

        RequireWholePages(count);
        for (var at = 0; at < count; at += EnginePages.PageBytes)
        {
            sums.Check((Position + at) / EnginePages.PageBytes, buffer.Slice(at, EnginePages.PageBytes));
        }

        Position += count;
        return count;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        RequireWholePages(buffer.Length);
        for (var at = 0; at < buffer.Length; at += EnginePages.PageBytes)
        {
            sums.Wrote((Position + at) / EnginePages.PageBytes, buffer.Slice(at, EnginePages.PageBytes));
        }

        RandomAccess.Write(file, buffer, Position);
        Position += buffer.Length;
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    /// <summary>Brings the file onto the disk: the engine asks for it at the end of a checkpoint and at no other time.</summary>
    public override void Flush() => RandomAccess.FlushToDisk(file);

    public override long Seek(long offset, SeekOrigin origin) =>
        Position = origin switch
        {
            SeekOrigin.Begin => offset,
            SeekOrigin.Current => Position + offset,
            _ => Length + offset,
        };

    public override void SetLength(long value) => RandomAccess.SetLength(file, value);

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            file.Dispose();
        }

        base.Dispose(disposing);
    }

    private void RequireWholePages(int count)
    {
        if (Position % EnginePages.PageBytes != 0 || count % EnginePages.PageBytes != 0)
        {
            throw new InvalidDataException($"{count} bytes at {Position} of the data file are not whole pages");
        }
    }
}
