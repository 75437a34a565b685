using Org.BouncyCastle.Bcpg;
using Org.BouncyCastle.Bcpg.OpenPgp;

namespace PupilBridge.Safekeeping.Envelopes;

/// <summary>An OpenPGP message that opens with a pass phrase.</summary>
/// <remarks>
/// The key is made of the pass phrase by the iterated and salted S2K with SHA-256 over 65,011,712 bytes, the most that the format can
/// say (RFC 4880, 3.7.1.3). RFC 9580 also knows Argon2; programs that are widely installed do not yet.
/// </remarks>
/// <param name="passPhrase">The pass phrase.</param>
public sealed class PassPhraseEnvelope(string passPhrase) : OpenPgpEnvelope
{
    /// <summary>What the catalogue calls it.</summary>
    public const string Called = "openpgp-pass-phrase";

    /// <summary>The coded count for 65,011,712 bytes.</summary>
    private const int MostIterations = 0xFF;

    /// <summary>The coded count; tests that are not about it may lower it.</summary>
    internal int CodedIterations { get; init; } = MostIterations;

    /// <inheritdoc/>
    public override string Name => Called;

    /// <inheritdoc/>
    public override bool CanOpen => true;

    private protected override void AddMethod(PgpEncryptedDataGenerator message) =>
        message.AddMethodUtf8(passPhrase.ToCharArray(), HashAlgorithmTag.Sha256, CodedIterations);

    private protected override (PgpEncryptedData Data, Stream Clear) Unlock(PgpEncryptedDataList sealedFor)
    {
        var mine =
            sealedFor.GetEncryptedDataObjects().OfType<PgpPbeEncryptedData>().FirstOrDefault()
            ?? throw new WrongKeyException("it opens with a private key, not with a pass phrase");
        try
        {
            return (mine, mine.GetDataStreamUtf8(passPhrase.ToCharArray()));
        }
        catch (PgpException fault)
        {
            throw new WrongKeyException("it does not open with this pass phrase", fault);
        }
    }
}
