using Microsoft.Win32.SafeHandles;

namespace PupilBridge.ExamLog;

/// <summary>
/// A file of the engine as the engine is given it: whole pages in and out, whatever form they have on disk. A page is written by one
/// call, so that a process that dies leaves it whole or not at all.
/// </summary>
/// <remarks>The engine takes turns with its streams.</remarks>
internal class PageFile : Stream
{
    private readonly SafeFileHandle file;
    private readonly EngineFile kind;
    private readonly PageForm form;
    private byte[] blocks = [];

    public PageFile(string path, EngineFile kind, PageForm form)
    {
        this.kind = kind;
        this.form = form;
        file = File.OpenHandle(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.ReadWrite);
    }

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => true;

    public override long Length => RandomAccess.GetLength(file) / form.BlockBytes * EnginePages.PageBytes;

    public override long Position { get; set; }

    /// <summary>Reads whole pages.</summary>
    /// <exception cref="InvalidDataException">A page is not as it was written.</exception>
    public override int Read(Span<byte> buffer)
    {
        RequireWholePages(buffer.Length);
        var first = Position / EnginePages.PageBytes;
        var found = ReadBlocks(first, buffer.Length / EnginePages.PageBytes);
        for (var i = 0; i < found; i++)
        {
            var block = Block(i);
            Reading(first + i, block);
            form.Load(kind, first + i, block, buffer.Slice(i * EnginePages.PageBytes, EnginePages.PageBytes));
        }

        Position += found * EnginePages.PageBytes;
        return found * EnginePages.PageBytes;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        RequireWholePages(buffer.Length);
        var first = Position / EnginePages.PageBytes;
        var count = buffer.Length / EnginePages.PageBytes;
        Room(count);
        for (var i = 0; i < count; i++)
        {
            var block = Block(i);
            form.Store(kind, first + i, buffer.Slice(i * EnginePages.PageBytes, EnginePages.PageBytes), block);
            Writing(first + i, block);
        }

        RandomAccess.Write(file, blocks.AsSpan(0, count * form.BlockBytes), first * form.BlockBytes);
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

    public override void SetLength(long value) =>
        RandomAccess.SetLength(file, value / EnginePages.PageBytes * form.BlockBytes);

    /// <summary>Looks at a block that is being read.</summary>
    protected virtual void Reading(long page, ReadOnlySpan<byte> block) { }

    /// <summary>Takes note of a block that is being written.</summary>
    protected virtual void Writing(long page, ReadOnlySpan<byte> block) { }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            file.Dispose();
        }

        base.Dispose(disposing);
    }

    private Span<byte> Block(int i) => blocks.AsSpan(i * form.BlockBytes, form.BlockBytes);

    private void Room(int count)
    {
        if (blocks.Length < count * form.BlockBytes)
        {
            blocks = new byte[count * form.BlockBytes];
        }
    }

    /// <returns>How many whole blocks there were; fewer only at the end of the file.</returns>
    private int ReadBlocks(long first, int count)
    {
        Room(count);
        var wanted = blocks.AsSpan(0, count * form.BlockBytes);
        var total = 0;
        for (int read; total < wanted.Length; total += read)
        {
            read = RandomAccess.Read(file, wanted[total..], (first * form.BlockBytes) + total);
            if (read == 0)
            {
                break;
            }
        }

        return total % form.BlockBytes == 0
            ? total / form.BlockBytes
            : throw new InvalidDataException($"the {kind} file ends in the middle of a page");
    }

    private void RequireWholePages(int count)
    {
        if (Position % EnginePages.PageBytes != 0 || count % EnginePages.PageBytes != 0)
        {
            throw new InvalidDataException($"{count} bytes at {Position} of the {kind} file are not whole pages");
        }
    }
}
