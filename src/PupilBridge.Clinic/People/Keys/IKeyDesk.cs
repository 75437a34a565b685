namespace PupilBridge.Clinic.People;

/// <summary>
/// The keys by which programs use the web API. A key opens what its scopes name and nothing else; only its hash is kept, and making and
/// revoking one is journalled as changes of people are.
/// </summary>
/// <remarks>Safe for several threads.</remarks>
public interface IKeyDesk
{
    /// <summary>All keys, revoked ones included, by name.</summary>
    IReadOnlyList<KeyView> ListKeys();

    /// <summary>The key that a program brings along.</summary>
    /// <param name="presented">What the program sent.</param>
    /// <returns>Null if there is no such key, or it was revoked.</returns>
    KeyView? FindKey(string presented);

    /// <summary>Makes a key. Only an administrator may.</summary>
    /// <param name="by">Who does it.</param>
    /// <param name="name">Its name, 1 to 40 characters: entries made with it stand under that name.</param>
    /// <param name="scopes">What it opens, out of <see cref="KeyScopes.All"/>.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    /// <returns>The key itself, which is never shown again.</returns>
    Task<KeyOutcome> AddKeyAsync(
        Caller by,
        string name,
        IReadOnlyCollection<string> scopes,
        CancellationToken cancellationToken
    );

    /// <summary>Revokes a key for good: whatever brings it along is refused from then on. Only an administrator may.</summary>
    /// <param name="by">Who does it.</param>
    /// <param name="name">Its name; capitals do not matter.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    Task<KeyOutcome> RevokeKeyAsync(Caller by, string name, CancellationToken cancellationToken);
}

/// <summary>A key as others may see it.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Scopes">What it opens.</param>
/// <param name="By">Who made it.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="RevokedAt">When it was revoked; null while it opens anything.</param>
public sealed record KeyView(
    string Name,
    IReadOnlyList<string> Scopes,
    string By,
    DateTimeOffset At,
    DateTimeOffset? RevokedAt
)
{
    /// <summary>Who calls with this key: brackets are kept for what is no person, so that nobody's name can be the same.</summary>
    public Caller Caller => new($"{Name} (key)", ClinicRole.None) { Scopes = Scopes };
}

/// <summary>What became of a change of keys.</summary>
/// <param name="Done">Whether it was done.</param>
/// <param name="Words">What happened, or what is in the way and what to do next, for a person.</param>
/// <param name="Key">The key that was made, to be shown once; null for anything else.</param>
public sealed record KeyOutcome(bool Done, string Words, string? Key = null);
