using System.Buffers.Binary;

namespace PupilBridge.Desk;

/// <summary>
/// A stream that reads messages with a four-byte length before each (big-endian) and breaks off when a length is over
/// the limit, before anything of that size is put into memory. Writing passes through.
/// </summary>
/// <param name="inner">The connection.</param>
/// <param name="maxBytes">The most bytes that one message may have.</param>
internal sealed class FrameLimit(Stream inner, int maxBytes) : Stream
{
    private readonly byte[] header = new byte[4];
    private int headerBytes;
    private long bodyBytesLeft;

    /// <inheritdoc/>
    public override bool CanRead => true;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => true;

    /// <inheritdoc/>
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    /// <inheritdoc/>
    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        var read = await inner.ReadAsync(buffer, cancellationToken).ConfigureAwait(false);
        Follow(buffer.Span[..read]);
        return read;
    }

    /// <inheritdoc/>
    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count)
    {
        var read = inner.Read(buffer, offset, count);
        Follow(buffer.AsSpan(offset, read));
        return read;
    }

    /// <inheritdoc/>
    public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default) =>
        inner.WriteAsync(buffer, cancellationToken);

    /// <inheritdoc/>
    public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        inner.WriteAsync(buffer, offset, count, cancellationToken);

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => inner.Write(buffer, offset, count);

    /// <inheritdoc/>
    public override Task FlushAsync(CancellationToken cancellationToken) => inner.FlushAsync(cancellationToken);

    /// <inheritdoc/>
    public override void Flush() => inner.Flush();

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
        }

        base.Dispose(disposing);
    }

    private void Follow(ReadOnlySpan<byte> bytes)
    {
        while (!bytes.IsEmpty)
        {
            if (bodyBytesLeft > 0)
            {
                var skip = (int)Math.Min(bodyBytesLeft, bytes.Length);
                bodyBytesLeft -= skip;
                bytes = bytes[skip..];
                continue;
            }

            header[headerBytes++] = bytes[0];
            bytes = bytes[1..];
            if (headerBytes == header.Length)
            {
                headerBytes = 0;
                bodyBytesLeft = BinaryPrimitives.ReadUInt32BigEndian(header);
                RefuseOverLimit();
            }
        }
    }

    private void RefuseOverLimit()
    {
        if (bodyBytesLeft > maxBytes)
        {
            throw new InvalidDataException(
                $"A message of {bodyBytesLeft} bytes arrived on the local socket; the limit is {maxBytes}. The connection was closed."
            );
        }
    }
}
