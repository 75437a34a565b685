using Org.BouncyCastle.Bcpg;
using Org.BouncyCastle.Bcpg.OpenPgp;

namespace PupilBridge.Safekeeping.Envelopes;

/// <summary>
/// An OpenPGP message (RFC 4880, taken over by RFC 9580): AES-256 in an integrity-protected packet (version 1, which every present
/// program reads), a literal packet inside. Any OpenPGP program opens it; <c>gpg --decrypt</c> does in the tests.
/// </summary>
public abstract class OpenPgpEnvelope : Envelope
{
    private const int BufferBytes = 1 << 16;

    /// <inheritdoc/>
    public override string Suffix => ".gpg";

    /// <inheritdoc/>
    public override bool IsEncrypted => true;

    /// <summary>Says who can open the message.</summary>
    private protected abstract void AddMethod(PgpEncryptedDataGenerator message);

    /// <summary>Finds the part of a message that can be opened here, and opens it.</summary>
    /// <exception cref="WrongKeyException">There is none.</exception>
    private protected abstract (PgpEncryptedData Data, Stream Clear) Unlock(PgpEncryptedDataList sealedFor);

    /// <inheritdoc/>
    public override Stream Seal(Stream to)
    {
        var message = new PgpEncryptedDataGenerator(SymmetricKeyAlgorithmTag.Aes256, withIntegrityPacket: true);
        AddMethod(message);
        var encrypted = message.Open(to, new byte[BufferBytes]);
        var literal = new PgpLiteralDataGenerator();
        // Neither name nor time: a reader of the message learns what is in it, and the catalogue says the rest.
        var content = literal.Open(encrypted, PgpLiteralData.Binary, "", DateTime.UnixEpoch, new byte[BufferBytes]);
        return new SealedMessage(content, encrypted);
    }

    /// <inheritdoc/>
    public override Stream Open(Stream from)
    {
        try
        {
            var objects = new PgpObjectFactory(PgpUtilities.GetDecoderStream(from));
            var first = objects.NextPgpObject();
            // A marker packet may come first (RFC 4880, 5.8).
            var sealedFor = first as PgpEncryptedDataList ?? objects.NextPgpObject() as PgpEncryptedDataList;
            var (data, clear) = Unlock(
                sealedFor ?? throw new BrokenSealException("it is no encrypted OpenPGP message")
            );
            if (!data.IsIntegrityProtected())
            {
                throw new BrokenSealException("it is not protected against alteration");
            }

            return new OpenedMessage(data, Literal(clear));
        }
        catch (Exception fault) when (IsOfTheLibrary(fault))
        {
            throw new BrokenSealException("it is no encrypted OpenPGP message, or was altered", fault);
        }
    }

    /// <summary>Whether an exception is what the library throws at bytes that are wrong.</summary>
    internal static bool IsOfTheLibrary(Exception fault) =>
        // What it throws depends on the byte that is wrong, and is not documented: whatever it throws at foreign bytes means them.
        fault is not (WrongKeyException or BrokenSealException or OutOfMemoryException or OperationCanceledException);

    private static Stream Literal(Stream clear)
    {
        var inner = new PgpObjectFactory(clear);
        for (var at = inner.NextPgpObject(); at is not null; at = inner.NextPgpObject())
        {
            switch (at)
            {
                case PgpCompressedData compressed:
                    // Ours are not compressed; what other programs seal mostly is.
                    inner = new PgpObjectFactory(compressed.GetDataStream());
                    break;
                case PgpLiteralData literal:
                    return literal.GetInputStream();
                default:
                    break;
            }
        }

        throw new BrokenSealException("there is nothing in it");
    }
}
