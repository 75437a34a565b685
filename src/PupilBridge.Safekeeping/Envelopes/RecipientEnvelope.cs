using Org.BouncyCastle.Bcpg.OpenPgp;

namespace PupilBridge.Safekeeping.Envelopes;

/// <summary>An OpenPGP message that opens with the private key of a recipient, which need not be on this machine.</summary>
public sealed class RecipientEnvelope : OpenPgpEnvelope
{
    private readonly PgpPublicKey? publicKey;
    private readonly PgpSecretKeyRingBundle? secretKeys;
    private readonly string passPhrase = "";
    private readonly Dictionary<long, PgpPrivateKey> unlocked = [];

    private RecipientEnvelope(PgpPublicKey? publicKey, PgpSecretKeyRingBundle? secretKeys, string passPhrase) =>
        (this.publicKey, this.secretKeys, this.passPhrase) = (publicKey, secretKeys, passPhrase);

    /// <summary>What the catalogue calls it, before the fingerprint.</summary>
    public const string Called = "openpgp-recipient";

    /// <inheritdoc/>
    public override string Name =>
        publicKey is null ? Called : $"{Called} {Convert.ToHexString(publicKey.GetFingerprint())}";

    /// <inheritdoc/>
    public override bool CanOpen => secretKeys is not null;

    /// <summary>To seal for a recipient.</summary>
    /// <param name="path">A file with a public key, armoured or not, as <c>gpg --export</c> writes it.</param>
    /// <exception cref="WrongKeyException">There is no key in it that messages can be encrypted to.</exception>
    public static RecipientEnvelope ToSeal(string path)
    {
        using var file = File.OpenRead(path);
        try
        {
            var keys = new PgpPublicKeyRingBundle(PgpUtilities.GetDecoderStream(file))
                .GetKeyRings()
                .SelectMany(ring => ring.GetPublicKeys())
                .Where(key => key.IsEncryptionKey && !key.HasRevocation())
                .ToArray();
            // A sub-key is made for encrypting; a main key mostly signs.
            var key = keys.FirstOrDefault(k => !k.IsMasterKey) ?? keys.FirstOrDefault();
            return new RecipientEnvelope(
                key ?? throw new WrongKeyException($"There is no key in {path} to which messages can be encrypted."),
                null,
                ""
            );
        }
        catch (Exception fault) when (IsOfTheLibrary(fault))
        {
            throw new WrongKeyException($"{path} holds no OpenPGP public key.", fault);
        }
    }

    /// <summary>To open what was sealed.</summary>
    /// <param name="path">A file with the private key, as <c>gpg --export-secret-keys</c> writes it.</param>
    /// <param name="passPhrase">The pass phrase of that key; empty for none.</param>
    /// <exception cref="WrongKeyException">There is no private key in it.</exception>
    public static RecipientEnvelope ToOpen(string path, string passPhrase)
    {
        using var file = File.OpenRead(path);
        try
        {
            return new RecipientEnvelope(
                null,
                new PgpSecretKeyRingBundle(PgpUtilities.GetDecoderStream(file)),
                passPhrase
            );
        }
        catch (Exception fault) when (IsOfTheLibrary(fault))
        {
            throw new WrongKeyException($"{path} holds no OpenPGP private key.", fault);
        }
    }

    private protected override void AddMethod(PgpEncryptedDataGenerator message) =>
        message.AddMethod(
            publicKey ?? throw new WrongKeyException("A private key alone does not seal; name the public key.")
        );

    private protected override (PgpEncryptedData Data, Stream Clear) Unlock(PgpEncryptedDataList sealedFor)
    {
        foreach (var mine in sealedFor.GetEncryptedDataObjects().OfType<PgpPublicKeyEncryptedData>())
        {
            if (secretKeys?.GetSecretKey(mine.KeyId) is not { } secret)
            {
                continue;
            }

            try
            {
                return (mine, mine.GetDataStream(Unlocked(secret)));
            }
            catch (PgpException fault)
            {
                throw new WrongKeyException("the private key does not open with this pass phrase", fault);
            }
        }

        throw new WrongKeyException("it was sealed for another recipient");
    }

    /// <summary>Unlocking takes a second by intent, and a backup has hundreds of pieces: once is enough.</summary>
    private PgpPrivateKey Unlocked(PgpSecretKey secret)
    {
        if (!unlocked.TryGetValue(secret.KeyId, out var key))
        {
            key = secret.ExtractPrivateKeyUtf8(passPhrase.ToCharArray());
            unlocked[secret.KeyId] = key;
        }

        return key;
    }
}
