namespace PupilBridge.Measure.Exchange;

/// <summary>Hands bytes on and notes the process's memory at every mebibyte, to see whether it grows with what was written.</summary>
internal sealed class MarkingStream(Stream to) : Stream
{
    private readonly List<double> marks = [];

    public long Bytes { get; private set; }

    public override bool CanRead => false;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => Bytes;

    public override long Position
    {
        get => Bytes;
        set => throw new NotSupportedException();
    }

    /// <summary>The memory when a share of all was written, in MB.</summary>
    public double RssMbAt(double share) => marks.Count == 0 ? 0 : marks[(int)((marks.Count - 1) * share)];

    public override void Flush() => to.Flush();

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count)
    {
        to.Write(buffer, offset, count);
        Note(count);
    }

    public override async ValueTask WriteAsync(
        ReadOnlyMemory<byte> buffer,
        CancellationToken cancellationToken = default
    )
    {
        await to.WriteAsync(buffer, cancellationToken).ConfigureAwait(false);
        Note(buffer.Length);
    }

    private void Note(int count)
    {
        var before = Bytes >> 20;
        Bytes += count;
        if (Bytes >> 20 != before)
        {
            marks.Add(ExportMeasure.RssMb());
        }
    }
}
