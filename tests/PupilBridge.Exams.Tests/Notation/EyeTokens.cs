using System.Text.RegularExpressions;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Notation;

/// <summary>
/// Takes a line of a chart text apart: a row of the block (<c>OD (right): dim→bright 5.1→3.2 mm; shape round; direct 3+; near …</c>),
/// or a sentence of the one line for both eyes (<c>Shape: OD (right) round, OS (left) not round.</c>).
/// </summary>
internal static partial class EyeTokens
{
    private static readonly string[] Sizes = ["dim→bright", "dim", "bright"];

    /// <summary>What is said of each eye, in its own words.</summary>
    public static IEnumerable<(Eye Eye, string What, string Value)> Of(string line)
    {
        if (Row().Match(line) is { Success: true } row)
            return row.Groups[2].Value.Split("; ").SelectMany(part => Split(EyeOf(row.Groups[1].Value), part));
        return Sentences()
            .Matches(line)
            .SelectMany(said =>
                new[] { Eye.Right, Eye.Left }.SelectMany(eye =>
                {
                    var (what, value) = (said.Groups[1].Value, said.Groups[eye == Eye.Right ? 2 : 3].Value);
                    return what switch
                    {
                        "Sizes" => Split(eye, value),
                        // Here the eye that was lit is named; its fellow was watched.
                        "Consensual, by the eye lit" => [(eye.Fellow(), "consensual", value)],
                        _ => [(eye, what.ToLowerInvariant(), value)],
                    };
                })
            );
    }

    /// <summary>Whether it gives a value, and does not say why there is none.</summary>
    public static bool IsValue(string said) => said.Length > 0 && (char.IsAsciiDigit(said[0]) || said == "round");

    /// <summary>What is said of the swinging test; empty for nothing.</summary>
    public static string SwingingOf(string line) => Swinging().Match(line).Value;

    private static IEnumerable<(Eye, string, string)> Split(Eye eye, string part)
    {
        foreach (var one in part.Trim().Split(", "))
        {
            var space = one.IndexOf(' ', StringComparison.Ordinal);
            if (space < 0)
                continue;
            var what = one[..space];
            if (Sizes.Contains(what) || what is "shape" or "direct" or "near" or "consensual")
                yield return (eye, what, one[(space + 1)..]);
        }
    }

    private static Eye EyeOf(string text) => text == "OD (right)" ? Eye.Right : Eye.Left;

    [GeneratedRegex(@"^(OD \(right\)|OS \(left\)): +(.*)$")]
    private static partial Regex Row();

    [GeneratedRegex(
        @"(?<=\. )(Sizes|Shape|Direct|Consensual, by the eye lit|Near): OD \(right\) (.*?), OS \(left\) (.*?)(?=; ±|\. [A-Z])"
    )]
    private static partial Regex Sentences();

    [GeneratedRegex(@"(?:^|(?<=\. ))Swinging: .*?(?=\. Notes:|$)")]
    private static partial Regex Swinging();
}
