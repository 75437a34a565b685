using System.Text.Json;
using System.Text.Json.Serialization;

namespace PupilBridge.Clinic.People;

/// <summary>The content of the access file: who may sign in, and which changes the journal does not have yet.</summary>
internal sealed record AccessList
{
    /// <summary>The version of the format that this program writes and understands.</summary>
    public const int CurrentVersion = 1;

    /// <summary>Nobody.</summary>
    public static AccessList Empty { get; } = new();

    /// <summary>The version of the format.</summary>
    public int Version { get; init; } = CurrentVersion;

    /// <summary>Everybody, in the order in which they were added.</summary>
    public IReadOnlyList<StoredPerson> People { get; init; } = [];

    /// <summary>
    /// Changes that are made and not journalled yet. They are written together with the change itself, so that neither a crash nor
    /// a command beside the running service can make a change that the journal never learns of.
    /// </summary>
    public IReadOnlyList<PersonChangeNote> NotJournalled { get; init; } = [];

    /// <summary>
    /// The keys of programs, in the order in which they were made. A program from before there were keys leaves them out of what it
    /// writes: they then open nothing any more, which is the safe way to fail.
    /// </summary>
    public IReadOnlyList<StoredKey> Keys { get; init; } = [];

    /// <summary>The key with a name that was not revoked; capitals do not matter.</summary>
    public StoredKey? FindKey(string name) =>
        Keys.FirstOrDefault(k => k.RevokedAt is null && k.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>The person with a name; capitals do not matter.</summary>
    public StoredPerson? Find(string who) =>
        People.FirstOrDefault(p => p.Who.Equals(who, StringComparison.OrdinalIgnoreCase));

    /// <summary>The same list with a person added, or in place of the one with the same name.</summary>
    public AccessList With(StoredPerson person) =>
        this with
        {
            People = Find(person.Who) is { } before
                ? [.. People.Select(p => ReferenceEquals(p, before) ? person : p)]
                : [.. People, person],
        };

    /// <summary>The same list with a change noted for the journal.</summary>
    public AccessList With(PersonChangeNote note) => this with { NotJournalled = [.. NotJournalled, note] };

    /// <summary>Whether anybody can look after people.</summary>
    public bool HasAdministrator => People.Any(p => p.IsEnabled && p.Roles.HasFlag(ClinicRole.Administrator));
}

/// <summary>The access file's JSON.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, UseStringEnumConverter = true, WriteIndented = true)]
[JsonSerializable(typeof(AccessList))]
internal sealed partial class AccessJson : JsonSerializerContext;
