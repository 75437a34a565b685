using PupilBridge.Safekeeping.Envelopes;

namespace PupilBridge.Safekeeping.Tests.Support;

/// <summary>Seals as it should, to a disk that is full after so many bytes in all.</summary>
/// <param name="room">How many bytes it takes.</param>
internal sealed class FullDiskEnvelope(long room) : Envelope
{
    private readonly PassPhraseEnvelope real = House.Words();
    private long left = room;

    public override string Name => real.Name;

    public override string Suffix => real.Suffix;

    public override bool IsEncrypted => true;

    public override bool CanOpen => true;

    public override Stream Seal(Stream to) => real.Seal(new Filling(to, this));

    public override Stream Open(Stream from) => real.Open(from);

    private void Take(int bytes)
    {
        left -= bytes;
        if (left < 0)
        {
            throw new IOException("No space left on device");
        }
    }

    private sealed class Filling(Stream to, FullDiskEnvelope disk) : Stream
    {
        public override bool CanRead => false;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            disk.Take(buffer.Length);
            to.Write(buffer);
        }

        public override void Flush() => to.Flush();

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();
    }
}
