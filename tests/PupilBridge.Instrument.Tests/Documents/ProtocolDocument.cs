using System.Text.RegularExpressions;

namespace PupilBridge.Instrument.Tests.Documents;

/// <summary>docs/protocol.md, from which these tests take their vectors.</summary>
internal static class ProtocolDocument
{
    internal static string Path { get; } = Find();

    internal static string Text { get; } = File.ReadAllText(Path).ReplaceLineEndings("\n");

    /// <summary>The lines of all fenced blocks with a tag; there must be at least one.</summary>
    internal static string[] Lines(string tag) => [.. Blocks(tag).SelectMany(block => block.Split('\n'))];

    /// <summary>The fenced blocks with a tag; there must be at least one.</summary>
    internal static string[] Blocks(string tag)
    {
        var blocks = Regex.Matches(Text, $"^```{tag}\n(.*?)\n```$", RegexOptions.Multiline | RegexOptions.Singleline);
        Assert.NotEmpty(blocks);
        return [.. blocks.Select(m => m.Groups[1].Value)];
    }

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(System.IO.Path.Combine(folder.FullName, "PupilBridge.sln")))
                return System.IO.Path.Combine(folder.FullName, "docs", "protocol.md");
        }

        throw new FileNotFoundException(
            "docs/protocol.md stands beside PupilBridge.sln, above the folder of the tests."
        );
    }
}
