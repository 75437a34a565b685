using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization.Metadata;

namespace PupilBridge.Fuzz.Seeds;

/// <summary>A JSON body of a type with every member that it has, so that changes reach them all.</summary>
internal static class JsonSkeleton
{
    private const int Deepest = 8;

    /// <summary>Makes one.</summary>
    /// <param name="type">The type.</param>
    /// <param name="options">How it is read.</param>
    /// <param name="words">Values for members by name, in JSON; they go before made ones.</param>
    public static JsonNode? Of(
        Type type,
        JsonSerializerOptions options,
        IReadOnlyDictionary<string, string>? words = null
    ) => Of(type, options, words ?? new Dictionary<string, string>(), 0);

    private static JsonNode? Of(
        Type type,
        JsonSerializerOptions options,
        IReadOnlyDictionary<string, string> words,
        int depth
    )
    {
        type = Nullable.GetUnderlyingType(type) ?? type;
        if (Plain(type) is { } plain)
            return plain;
        if (depth > Deepest)
            return null;
        var info = options.GetTypeInfo(type);
        if (info.Kind == JsonTypeInfoKind.Enumerable)
            return new JsonArray(Of(info.ElementType ?? typeof(string), options, words, depth + 1));
        if (info.Kind != JsonTypeInfoKind.Object)
            return "R";
        var made = new JsonObject();
        foreach (var member in info.Properties)
        {
            made[member.Name] = words.TryGetValue(member.Name, out var word)
                ? JsonNode.Parse(word)
                : Of(member.PropertyType, options, words, depth + 1);
        }

        return made;
    }

    private static JsonNode? Plain(Type type) =>
        type == typeof(string) ? "Q-1001"
        : type == typeof(bool) ? JsonValue.Create(false)
        : type == typeof(DateTimeOffset) ? "2026-03-02T09:00:00Z"
        : type == typeof(DateOnly) ? "1980-05-17"
        : type == typeof(double) ? JsonValue.Create(0.5)
        : type == typeof(int) || type == typeof(long) ? JsonValue.Create(1)
        : type.IsEnum ? JsonValue.Create(1)
        : null;
}
