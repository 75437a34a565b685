namespace PupilBridge.Safekeeping.Streams;

/// <summary>A file as long as it was when it was opened, though somebody appends to it meanwhile; what is missing is zeros.</summary>
/// <param name="file">The file.</param>
internal sealed class SteadyStream(FileStream file) : ForwardStream
{
    private readonly long length = file.Length;
    private long position;

    public override bool CanRead => true;

    // The archive asks for the length, and for the position to know how much is left of it.
    public override bool CanSeek => true;

    public override long Length => length;

    public override long Position
    {
        get => position;
        set => throw new NotSupportedException();
    }

    public override int Read(Span<byte> buffer)
    {
        var wanted = buffer[..(int)Math.Min(buffer.Length, length - position)];
        var count = file.Read(wanted);
        if (count == 0)
        {
            wanted.Clear();
            count = wanted.Length;
        }

        position += count;
        return count;
    }
}
