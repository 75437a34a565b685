using System.Text;
using System.Text.RegularExpressions;
using CsCheck;
using PupilBridge.Instrument.Tests.Wire;

namespace PupilBridge.Instrument.Tests.Documents;

/// <summary>The page's ABNF, turned into a regular expression (it has no recursion), against what the code writes.</summary>
public partial class GrammarTests
{
    private static readonly Dictionary<string, string> Rules = ReadRules();
    private static readonly Regex InstrumentLine = Compile("instrument-line");
    private static readonly Regex HostLine = Compile("host-line");

    [Fact]
    public void What_an_instrument_says_is_in_the_grammar() =>
        Gens.InstrumentLine.Sample(line => Assert.Matches(InstrumentLine, Body(Lines.Of(line))));

    [Fact]
    public void What_a_host_says_is_in_the_grammar() =>
        Gens.HostLine.Sample(line => Assert.Matches(HostLine, Body(Lines.Of(line))));

    [Theory]
    [InlineData("POS,X,5,5")]
    [InlineData("POS,R,05,5")]
    [InlineData("POS,r,5,5")]
    [InlineData("EV,8F3A11C02B77D4E9,1,5,BLINK")]
    [InlineData("EV,8f3a11c02b77d4e9,1,5,OFF")]
    [InlineData("EV,8F3A11C02B77D4E9,1,5,OFF,more")]
    [InlineData("FAULT")]
    public void What_no_instrument_may_say_is_not(string body) => Assert.DoesNotMatch(InstrumentLine, body);

    private static string Body(byte[] line) => Encoding.ASCII.GetString(line)[..^10];

    private static Dictionary<string, string> ReadRules() =>
        ProtocolDocument
            .Lines("abnf")
            .Where(line => line.Length > 0)
            .Select(line => line.Split('=', 2, StringSplitOptions.TrimEntries))
            .ToDictionary(parts => parts[0], parts => parts[1]);

    private static Regex Compile(string rule) => new($"^{Expand(rule)}\\z", RegexOptions.CultureInvariant);

    private static string Expand(string rule) =>
        rule switch
        {
            "ALPHA" => "[A-Za-z]",
            "DIGIT" => "[0-9]",
            _ => $"(?:{string.Concat(Token().Matches(Rules[rule]).Select(m => Translate(m)))})",
        };

    private static string Translate(Match token)
    {
        if (token.Groups["text"].Success)
            return $"(?:{Regex.Escape(token.Groups["text"].Value)}){Repeat(token)}";
        if (token.Groups["from"].Success)
            return $"[\\x{token.Groups["from"].Value}-\\x{token.Groups[token.Groups["to"].Success ? "to" : "from"].Value}]";
        if (token.Groups["name"].Success)
            return Expand(token.Groups["name"].Value) + Repeat(token);
        return token.Value switch
        {
            "/" => "|",
            "[" or "(" => "(?:",
            "]" => ")?",
            // A repeated group: its bounds stand before the parenthesis, a regular expression wants them behind.
            _ when token.Groups["group"].Success => $"(?:{Group(token)}){Repeat(token)}",
            _ => token.Value,
        };
    }

    private static string Group(Match token) =>
        string.Concat(Token().Matches(token.Groups["group"].Value).Select(m => Translate(m)));

    private static string Repeat(Match token)
    {
        var (exact, least, most) = (token.Groups["exact"], token.Groups["least"], token.Groups["most"]);
        if (exact.Success)
            return $"{{{exact.Value}}}";
        return token.Groups["star"].Success ? $"{{{(least.Length > 0 ? least.Value : "0")},{most.Value}}}" : "";
    }

    [GeneratedRegex(
        """
            (?:(?<star>(?<least>\d*)\*(?<most>\d*))|(?<exact>\d+))?
            (?:(?:%s)?"(?<text>[^"]*)"|%x(?<from>[0-9A-F]{2})(?:-(?<to>[0-9A-F]{2}))?|(?<name>[A-Za-z][A-Za-z-]*)|(?<=[\d*])\((?<group>[^()]*)\))
            |[/()\[\]]
            """,
        RegexOptions.IgnorePatternWhitespace
    )]
    private static partial Regex Token();
}
