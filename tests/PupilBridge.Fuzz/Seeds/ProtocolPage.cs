using System.Text;
using System.Text.RegularExpressions;

namespace PupilBridge.Fuzz.Seeds;

/// <summary>docs/protocol.md: its examples, good and bad, and its whole exchange.</summary>
internal static partial class ProtocolPage
{
    private static readonly string Text = File.ReadAllText(Repository.File("docs/protocol.md"))
        .ReplaceLineEndings("\n");

    /// <summary>All lines of the page: examples of this version, of newer ones, bad ones, and those of the exchange.</summary>
    public static IReadOnlyList<byte[]> Lines { get; } =
    [
        .. Blocks("wire")
            .Concat(Blocks("wire-newer"))
            .Concat(Blocks("wire-bad").Select(line => line.Split(' ', 2)[1].TrimStart()))
            .Concat(Said.Select(line => line.Text))
            .Select(Encoding.ASCII.GetBytes),
    ];

    /// <summary>What goes over the line in the exchange of section 21, in order: the second, who speaks, the line.</summary>
    public static IReadOnlyList<(double At, bool IsHost, string Text)> Said =>
        [
            .. Blocks("exchange")
                .Select(line => Spoken().Match(line))
                .Where(match => match.Success)
                .Select(match =>
                    (
                        double.Parse(match.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture),
                        match.Groups[2].Value == "H",
                        match.Groups[3].Value
                    )
                ),
        ];

    private static IEnumerable<string> Blocks(string tag) =>
        Regex
            .Matches(Text, $"^```{tag}\n(.*?)\n```$", RegexOptions.Multiline | RegexOptions.Singleline)
            .SelectMany(match => match.Groups[1].Value.Split('\n'));

    [GeneratedRegex("^([0-9.]+) ([IH])[>~] (.+)$")]
    private static partial Regex Spoken();
}
