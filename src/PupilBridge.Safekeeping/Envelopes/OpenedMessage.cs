using Org.BouncyCastle.Bcpg.OpenPgp;
using PupilBridge.Safekeeping.Streams;

namespace PupilBridge.Safekeeping.Envelopes;

/// <summary>The content of a message that was opened; at its end the message's own proof of integrity is checked.</summary>
/// <param name="data">The encrypted packet.</param>
/// <param name="content">The literal packet's content.</param>
internal sealed class OpenedMessage(PgpEncryptedData data, Stream content) : ForwardStream
{
    private bool isProved;

    public override bool CanRead => true;

    public override int Read(Span<byte> buffer)
    {
        if (buffer.IsEmpty || isProved)
        {
            return 0;
        }

        try
        {
            var count = content.Read(buffer);
            if (count == 0)
            {
                isProved = data.Verify() ? true : throw new BrokenSealException("it was altered after it was sealed");
            }

            return count;
        }
        catch (Exception fault) when (OpenPgpEnvelope.IsOfTheLibrary(fault))
        {
            throw new BrokenSealException("it was altered or cut after it was sealed", fault);
        }
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            content.Dispose();
        }

        base.Dispose(disposing);
    }
}
