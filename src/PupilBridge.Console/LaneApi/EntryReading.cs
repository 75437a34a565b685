using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Entries;

namespace PupilBridge.Console.LaneApi;

/// <summary>
/// Reads an entry out of JSON, its members in any order. What is wrong is said in the members' own names, for whoever wrote the program that
/// sent it.
/// </summary>
internal static class EntryReading
{
    private const string Kind = "entry";

    private static IReadOnlyList<JsonDerivedType> Kinds { get; } =
    [.. ClinicJson.Default.DeskEntry.PolymorphismOptions!.DerivedTypes];

    /// <summary>The words by which entries name their kind.</summary>
    public static IReadOnlyList<string> KindWords { get; } =
    [.. Kinds.Select(kind => (string)kind.TypeDiscriminator!).Order(StringComparer.Ordinal)];

    /// <summary>Reads an entry.</summary>
    /// <returns>The entry, or why it is none.</returns>
    public static (DeskEntry? Entry, string? Fault) Read(JsonElement json)
    {
        try
        {
            return Understand(json);
        }
        catch (InvalidOperationException)
        {
            // A name or word with half of a surrogate pair: JSON by its grammar, no text by any.
            return (null, ApiWords.Text.Get("BadEntry.BadMember", "$"));
        }
    }

    private static (DeskEntry? Entry, string? Fault) Understand(JsonElement json)
    {
        if (json.ValueKind != JsonValueKind.Object)
        {
            return (null, ApiWords.Text["BadEntry.Empty"]);
        }

        if (KindOf(json) is not { } kind)
        {
            return (null, ApiWords.Text.Get("BadEntry.NoKind", string.Join(", ", KindWords)));
        }

        if (Missing(json, kind) is { Count: > 0 } missing)
        {
            return (null, ApiWords.Text.Get("BadEntry.Missing", string.Join(", ", missing)));
        }

        try
        {
            return (json.Deserialize(ClinicJson.Default.DeskEntry), null);
        }
        catch (JsonException fault)
        {
            return (null, ApiWords.Text.Get("BadEntry.BadMember", fault.Path ?? "$"));
        }
    }

    private static Type? KindOf(JsonElement json) =>
        json.TryGetProperty(Kind, out var word) && word.ValueKind == JsonValueKind.String
            ? Kinds.FirstOrDefault(kind => (string?)kind.TypeDiscriminator == word.GetString()).DerivedType
            : null;

    private static List<string> Missing(JsonElement json, Type kind) =>
        [
            .. ClinicJson
                .Default.GetTypeInfo(kind)!
                .Properties.Where(member => member.IsRequired && !Has(json, member))
                .Select(member => member.Name),
        ];

    // Capitals do not matter, as everywhere in what is read over the web.
    private static bool Has(JsonElement json, JsonPropertyInfo member) =>
        json.EnumerateObject().Any(one => one.Name.Equals(member.Name, StringComparison.OrdinalIgnoreCase));
}
