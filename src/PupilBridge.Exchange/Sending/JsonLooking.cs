using System.Text.Json;

namespace PupilBridge.Exchange.Sending;

/// <summary>Careful looks into JSON that anybody may have sent: what is not there, or of another kind, is simply not there.</summary>
internal static class JsonLooking
{
    /// <summary>A member; null if there is none.</summary>
    public static JsonElement? Part(this JsonElement element, string name)
    {
        try
        {
            return element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var part)
                ? part
                : null;
        }
        catch (InvalidOperationException)
        {
            // A name with half of a surrogate pair: JSON by its grammar, no text by any.
            return null;
        }
    }

    /// <summary>A member that is text; null if it is none.</summary>
    public static string? Text(this JsonElement element, string name)
    {
        try
        {
            return element.Part(name) is { ValueKind: JsonValueKind.String } text ? text.GetString() : null;
        }
        catch (InvalidOperationException)
        {
            // As above.
            return null;
        }
    }

    /// <summary>Whether a member is a certain text.</summary>
    public static bool Is(this JsonElement element, string name, string text) =>
        string.Equals(element.Text(name), text, StringComparison.Ordinal);

    /// <summary>The items of a member; none if it is no list.</summary>
    public static IEnumerable<JsonElement> Items(this JsonElement element, string name) =>
        element.Part(name) is { ValueKind: JsonValueKind.Array } list ? list.EnumerateArray() : [];
}
