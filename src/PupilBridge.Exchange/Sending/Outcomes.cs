using System.Text;
using System.Text.Json;

namespace PupilBridge.Exchange.Sending;

/// <summary>What a server says in an OperationOutcome, in words short enough for a line.</summary>
internal static class Outcomes
{
    private const int MostCharacters = 300;

    /// <summary>The words; empty if it is no such thing.</summary>
    public static string WordsIn(string body)
    {
        try
        {
            using var json = JsonDocument.Parse(body);
            return json.RootElement.Is("resourceType", "OperationOutcome")
                ? Plain(string.Join("; ", json.RootElement.Items("issue").Select(WordsOf).Where(w => w.Length > 0)))
                : "";
        }
        catch (JsonException)
        {
            return "";
        }
    }

    private static string WordsOf(JsonElement issue) =>
        issue.Text("diagnostics") ?? issue.Part("details")?.Text("text") ?? issue.Text("code") ?? "";

    private static string Plain(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (var c in text.Take(MostCharacters))
        {
            plain.Append(char.IsControl(c) ? ' ' : c);
        }

        return text.Length > MostCharacters ? plain.Append('…').ToString() : plain.ToString();
    }
}
