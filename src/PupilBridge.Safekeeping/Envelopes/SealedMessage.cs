using PupilBridge.Safekeeping.Streams;

namespace PupilBridge.Safekeeping.Envelopes;

/// <summary>The content of a message that is being sealed; closing it closes the packets, the inner one first.</summary>
/// <param name="content">The literal packet's content.</param>
/// <param name="encrypted">The encrypted packet's content.</param>
internal sealed class SealedMessage(Stream content, Stream encrypted) : ForwardStream
{
    private bool isClosed;

    public override bool CanWrite => !isClosed;

    // The packets' buffers are flushed when they are closed, and no sooner: a packet has its length first.
    public override void Write(ReadOnlySpan<byte> buffer) => content.Write(buffer);

    protected override void Dispose(bool disposing)
    {
        if (disposing && !isClosed)
        {
            isClosed = true;
            content.Dispose();
            encrypted.Dispose();
        }

        base.Dispose(disposing);
    }
}
