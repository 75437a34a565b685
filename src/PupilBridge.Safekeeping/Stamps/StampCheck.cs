using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using System.Security.Cryptography.X509Certificates;
using PupilBridge.Journal;

namespace PupilBridge.Safekeeping.Stamps;

/// <summary>A time stamp that was checked.</summary>
/// <param name="File">The token's name.</param>
/// <param name="Head">The head that it stamps; null where that cannot be told.</param>
/// <param name="At">When, as the authority says.</param>
/// <param name="By">The subject of the authority's certificate.</param>
/// <param name="IsTrusted">Whether the certificate leads to the configured authorities; null where none are configured.</param>
/// <param name="Trouble">What is wrong with it; null for nothing.</param>
public sealed record CheckedStamp(
    string File,
    JournalPosition? Head,
    DateTimeOffset? At,
    string? By,
    bool? IsTrusted,
    string? Trouble
);

/// <summary>Checks the time stamps of a data folder: that each token is for its head, signed, and by an authority that the clinic trusts.</summary>
public static class StampCheck
{
    /// <summary>Checks all of them. Whether the heads are on the journal's chain is for the verifier.</summary>
    /// <param name="stamps">Where they are kept.</param>
    /// <param name="authorityFile">A file with the certificates (PEM) that the clinic trusts; null or empty for none.</param>
    public static IReadOnlyList<CheckedStamp> All(StampFolder stamps, string? authorityFile)
    {
        ArgumentNullException.ThrowIfNull(stamps);
        var trusted = new X509Certificate2Collection();
        if (stamps.Tokens.Count > 0 && !string.IsNullOrEmpty(authorityFile))
        {
            trusted.ImportFromPemFile(authorityFile);
        }

        return [.. stamps.Tokens.Select(token => One(token, trusted))];
    }

    private static CheckedStamp One(string path, X509Certificate2Collection trusted)
    {
        var name = Path.GetFileName(path);
        if (HeadIn(StampFolder.HeadOf(path)) is not { } head)
        {
            return new CheckedStamp(name, null, null, null, null, "the head that it stamps is missing or altered");
        }

        if (!Rfc3161TimestampToken.TryDecode(File.ReadAllBytes(path), out var token, out _))
        {
            return new CheckedStamp(name, head, null, null, null, "it is no time-stamp token");
        }

        var at = token.TokenInfo.Timestamp;
        if (!token.VerifySignatureForHash(StampAuthority.HashOf(head), HashAlgorithmName.SHA256, out var signer))
        {
            return new CheckedStamp(name, head, at, null, null, "it is not for this head, or its signature is wrong");
        }

        bool? isTrusted = trusted.Count == 0 ? null : LeadsTo(trusted, signer, token, at);
        return new CheckedStamp(
            name,
            head,
            at,
            signer.Subject,
            isTrusted,
            isTrusted == false
                ? $"its certificate ({signer.Subject}) leads to none of the authorities that are trusted"
                : null
        );
    }

    private static bool LeadsTo(
        X509Certificate2Collection trusted,
        X509Certificate2 signer,
        Rfc3161TimestampToken token,
        DateTimeOffset at
    )
    {
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(trusted);
        chain.ChainPolicy.ExtraStore.AddRange(token.AsSignedCms().Certificates);
        chain.ChainPolicy.ApplicationPolicy.Add(new Oid("1.3.6.1.5.5.7.3.8"));
        // The clinic's machine asks nobody but the authority, and a stamp is to be judged by its own time.
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.DisableCertificateDownloads = true;
        chain.ChainPolicy.VerificationTimeIgnored = false;
        chain.ChainPolicy.VerificationTime = at.UtcDateTime;
        return chain.Build(signer);
    }

    private static JournalPosition? HeadIn(string path)
    {
        if (!File.Exists(path))
        {
            return null;
        }

        var parts = File.ReadAllText(path).Split(':');
        return
            parts is [var sequence, var chain]
            && long.TryParse(sequence, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && ChainHash.TryParse(chain, out var hash)
            ? new JournalPosition(number, hash)
            : null;
    }
}
