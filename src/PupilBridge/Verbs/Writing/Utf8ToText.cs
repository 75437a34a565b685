using System.Text;

namespace PupilBridge.Verbs.Writing;

/// <summary>Lets what writes UTF-8 into a stream write to the terminal's text. For writing only.</summary>
internal sealed class Utf8ToText(TextWriter text) : Stream
{
    private readonly Decoder decoder = Encoding.UTF8.GetDecoder();

    public override bool CanRead => false;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override void Flush() => text.Flush();

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        // A letter may be cut in two between pieces; the decoder keeps the first half.
        var letters = new char[decoder.GetCharCount(buffer, flush: false)];
        var count = decoder.GetChars(buffer, letters, flush: false);
        text.Write(letters, 0, count);
    }

    public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default)
    {
        cancellationToken.ThrowIfCancellationRequested();
        Write(buffer.Span);
        return ValueTask.CompletedTask;
    }
}
