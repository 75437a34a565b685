using PupilBridge.Clinic.Text;

namespace PupilBridge.Clinic.People;

/// <summary>The keys of programs.</summary>
public sealed partial class PeopleDesk
{
    private const int LongestKeyName = 40;

    /// <inheritdoc/>
    public IReadOnlyList<KeyView> ListKeys() =>
        [.. ReadOrLast().Keys.Select(key => key.View()).OrderBy(key => key.Name, StringComparer.OrdinalIgnoreCase)];

    /// <inheritdoc/>
    public KeyView? FindKey(string presented)
    {
        ArgumentNullException.ThrowIfNull(presented);
        return StoredKey.Parts(presented) is var (id, secret)
            ? ReadOrLast()
                .Keys.FirstOrDefault(key => key.Id == id && key.RevokedAt is null && key.Opens(secret))
                ?.View()
            : null;
    }

    /// <inheritdoc/>
    public Task<KeyOutcome> AddKeyAsync(
        Caller by,
        string name,
        IReadOnlyCollection<string> scopes,
        CancellationToken cancellationToken
    )
    {
        ArgumentNullException.ThrowIfNull(by);
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(scopes);
        var (id, secret) = (Draw()[..12], Draw() + Draw());
        var key = new StoredKey
        {
            Name = name.Trim(),
            Id = id,
            Hash = StoredKey.HashOf(secret),
            Scopes = [.. KeyScopes.All.Where(scopes.Contains)],
            By = by.Who,
            At = parts.Time.GetUtcNow(),
        };
        return ChangeKeysAsync(
            by,
            list => CannotAdd(list, key, scopes),
            list => list with { Keys = [.. list.Keys, key] },
            key.Name,
            isOpen: true,
            $"key added: {string.Join(", ", key.Scopes)}",
            new KeyOutcome(true, Text.Get("Key.Added", key.Name), StoredKey.Text(id, secret)),
            cancellationToken
        );
    }

    /// <inheritdoc/>
    public Task<KeyOutcome> RevokeKeyAsync(Caller by, string name, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(by);
        ArgumentNullException.ThrowIfNull(name);
        var (wanted, now) = (name.Trim(), parts.Time.GetUtcNow());
        return ChangeKeysAsync(
            by,
            list =>
                list.FindKey(wanted) is { RevokedAt: null }
                    ? null
                    : new KeyOutcome(false, Text.Get("Key.Nobody", wanted)),
            list =>
                list with
                {
                    Keys = [.. list.Keys.Select(key => IsKey(key, wanted) ? key with { RevokedAt = now } : key)],
                },
            wanted,
            isOpen: false,
            "key revoked",
            new KeyOutcome(true, Text.Get("Key.Revoked", wanted)),
            cancellationToken
        );
    }

    private static HouseText Text => ClinicText.People;

    private static bool IsKey(StoredKey key, string name) =>
        key.RevokedAt is null && key.Name.Equals(name, StringComparison.OrdinalIgnoreCase);

    private static KeyOutcome? CannotAdd(AccessList list, StoredKey key, IReadOnlyCollection<string> scopes) =>
        !PersonSteps.IsName(key.Name) || key.Name.Length > LongestKeyName
            ? new(false, Text.Get("Key.NameFault", LongestKeyName))
        // A name is never used again: what stands in the journal under it must go on to mean one key.
        : list.Keys.Any(known => known.Name.Equals(key.Name, StringComparison.OrdinalIgnoreCase))
            ? new(false, Text.Get("Key.Exists", key.Name))
        : scopes.Count == 0 || scopes.Any(scope => !KeyScopes.All.Contains(scope))
            ? new(false, Text.Get("Key.Scopes", string.Join(", ", KeyScopes.All)))
        : null;

    /// <summary>Writes a change and its note for the journal in one go, then journals it.</summary>
    private Task<KeyOutcome> ChangeKeysAsync(
        Caller by,
        Func<AccessList, KeyOutcome?> obstacle,
        Func<AccessList, AccessList> change,
        string name,
        bool isOpen,
        string what,
        KeyOutcome done,
        CancellationToken cancellation
    )
    {
        if (!by.May(Roles.People))
        {
            return Task.FromResult(new KeyOutcome(false, PeopleWords.OnlyAdministrators));
        }

        var note = new PersonChangeNote
        {
            Id = Draw(),
            By = by.Who,
            At = parts.Time.GetUtcNow(),
            Person = $"{name} (key)",
            Roles = ClinicRole.None,
            IsEnabled = isOpen,
            What = what,
        };
        return AloneAsync(
            async () =>
            {
                var outcome = await file.ChangeAsync(
                        list => obstacle(list) is { } refused ? (list, refused) : (change(list).With(note), done),
                        cancellation
                    )
                    .ConfigureAwait(false);
                await NoteAsync(CatchUpAsync, cancellation).ConfigureAwait(false);
                return outcome;
            },
            words => new KeyOutcome(false, words),
            cancellation
        );
    }
}
