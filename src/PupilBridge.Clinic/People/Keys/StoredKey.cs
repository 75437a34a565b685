using System.Security.Cryptography;
using System.Text;

namespace PupilBridge.Clinic.People;

/// <summary>One key as the access file keeps it.</summary>
internal sealed record StoredKey
{
    private const string Prefix = "pbk";

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>The part of the key by which it is found; no secret.</summary>
    public required string Id { get; init; }

    /// <summary>The SHA-256 of the secret part. It has 256 random bits, so that no slow hash is needed against guessing.</summary>
    public required string Hash { get; init; }

    /// <summary>What it opens.</summary>
    public required IReadOnlyList<string> Scopes { get; init; }

    /// <summary>Who made it.</summary>
    public required string By { get; init; }

    /// <summary>When.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>When it was revoked; null while it opens anything.</summary>
    public DateTimeOffset? RevokedAt { get; init; }

    /// <summary>The same key as others may see it.</summary>
    public KeyView View() => new(Name, Scopes, By, At, RevokedAt);

    /// <summary>The text that a program brings along.</summary>
    public static string Text(string id, string secret) => $"{Prefix}_{id}_{secret}";

    /// <summary>The hash of a secret.</summary>
    public static string HashOf(string secret) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.ASCII.GetBytes(secret)));

    /// <summary>The two parts of what a program brought along; null if it is no key.</summary>
    public static (string Id, string Secret)? Parts(string presented) =>
        presented.Split('_') is [Prefix, { Length: > 0 } id, { Length: > 0 } secret] ? (id, secret) : null;

    /// <summary>Whether a secret is this key's.</summary>
    public bool Opens(string secret) =>
        CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(HashOf(secret)), Encoding.ASCII.GetBytes(Hash));
}
