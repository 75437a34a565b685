using System.Text.Json.Nodes;

namespace PupilBridge.Console.Tests.Keys;

/// <summary>What a key came to.</summary>
internal sealed record Effects(IReadOnlyList<JsonNode> All)
{
    /// <summary>Nothing.</summary>
    public static Effects None { get; } = new(Array.Empty<JsonNode>());

    /// <summary>Reads what a step gave.</summary>
    public static Effects Read(JsonArray all) => new(all.Select(one => one!).ToArray());

    /// <summary>What was entered.</summary>
    public IReadOnlyList<JsonNode> Entries => [.. Of("enter").Select(one => one["entry"]!)];

    /// <summary>The judgements that were entered.</summary>
    public IReadOnlyList<string> Judgements =>
        [.. Entries.Where(one => Text(one, "entry") == "judgement").Select(one => Text(one, "judgement")!)];

    /// <summary>The kinds of the entries.</summary>
    public IReadOnlyList<string> Kinds => [.. Entries.Select(one => Text(one, "entry")!)];

    public IReadOnlyList<string> Tones => [.. Of("tone").Select(one => Text(one, "tone")!)];

    /// <summary>The names of the words that were said.</summary>
    public IReadOnlyList<string> Said => [.. Of("say").Select(one => Text(one, "word")!)];

    public IReadOnlyList<JsonNode> Of(string effect) => [.. All.Where(one => Text(one, "effect") == effect)];

    public Effects And(Effects more) => new((JsonNode[])[.. All, .. more.All]);

    /// <summary>Nothing was entered, and the examiner heard and can read why.</summary>
    public void AreRefused(string word)
    {
        Assert.Empty(Entries);
        Assert.Equal(["refused"], Tones);
        Assert.Equal([word], Said);
    }

    private static string? Text(JsonNode node, string name) => node[name]?.GetValue<string>();
}
