using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace PupilBridge.CommandLine;

/// <summary>How every command writes JSON: names in camel case, values of lists of words as words, times in UTC.</summary>
internal static class JsonOutput
{
    private static readonly JsonSerializerOptions Document = Make(indented: true);
    private static readonly JsonSerializerOptions Line = Make(indented: false);

    /// <summary>Prints one document over several lines.</summary>
    /// <typeparam name="T">What it is.</typeparam>
    /// <param name="call">The invocation.</param>
    /// <param name="value">The data.</param>
    public static void PrintJson<T>(this Call call, T value) => call.Print(JsonSerializer.Serialize(value, Document));

    /// <summary>Prints one document on a line of its own (JSON Lines).</summary>
    /// <typeparam name="T">What it is.</typeparam>
    /// <param name="call">The invocation.</param>
    /// <param name="value">The data.</param>
    public static void PrintJsonLine<T>(this Call call, T value)
    {
        call.Print(JsonSerializer.Serialize(value, Line));
        call.Terminal.Out.Flush();
    }

    private static JsonSerializerOptions Make(bool indented)
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web)
        {
            WriteIndented = indented,
            NewLine = "\n",
            // Terminals and files, never HTML: what people wrote stays readable.
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        };
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase));
        return options;
    }
}
