using PupilBridge.Safekeeping.Streams;

namespace PupilBridge.Safekeeping.Envelopes;

/// <summary>No envelope: the bytes as they are.</summary>
public sealed class PlainEnvelope : Envelope
{
    /// <summary>What the catalogue calls it.</summary>
    public const string Called = "none";

    /// <inheritdoc/>
    public override string Name => Called;

    /// <inheritdoc/>
    public override string Suffix => "";

    /// <inheritdoc/>
    public override bool IsEncrypted => false;

    /// <inheritdoc/>
    public override bool CanOpen => true;

    /// <inheritdoc/>
    public override Stream Seal(Stream to) => new LeftOpen(to);

    /// <inheritdoc/>
    public override Stream Open(Stream from) => new LeftOpen(from);

    /// <summary>Closing it leaves what is below open.</summary>
    private sealed class LeftOpen(Stream below) : ForwardStream
    {
        public override bool CanRead => below.CanRead;

        public override bool CanWrite => below.CanWrite;

        public override void Flush() => below.Flush();

        public override int Read(Span<byte> buffer) => below.Read(buffer);

        public override void Write(ReadOnlySpan<byte> buffer) => below.Write(buffer);
    }
}
