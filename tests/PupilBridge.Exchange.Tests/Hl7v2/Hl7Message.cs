using System.Globalization;
using System.Text;

namespace PupilBridge.Exchange.Tests.Hl7v2;

/// <summary>
/// A reader of HL7 v2 messages, written from chapter 2 of the standard (from memory) and sharing nothing with the writer: it takes the
/// delimiters from the header and reads escape sequences letter by letter.
/// </summary>
internal sealed class Hl7Message
{
    private readonly char field;
    private readonly char component;
    private readonly char escape;
    private readonly char subcomponent;
    private readonly char repetition;

    public Hl7Message(string text)
    {
        Assert.StartsWith("MSH", text, StringComparison.Ordinal);
        (field, component, repetition, escape, subcomponent) = (text[3], text[4], text[5], text[6], text[7]);
        Assert.EndsWith("\r", text, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', text);
        Segments = [.. text[..^1].Split('\r').Select(s => s.Split(field))];
        Assert.All(Segments, s => Assert.Matches("^[A-Z][A-Z0-9]{2}$", s[0]));
    }

    public IReadOnlyList<string[]> Segments { get; }

    public IEnumerable<string[]> All(string name) => Segments.Where(s => s[0] == name);

    /// <summary>A field as it stands; empty where the segment ends before it.</summary>
    public string Raw(string[] segment, int number)
    {
        // In the header the separator itself is field 1.
        var index = segment[0] == "MSH" ? number - 1 : number;
        return index < segment.Length ? segment[index] : "";
    }

    public string Text(string[] segment, int number) => Unescape(Raw(segment, number));

    public string[] Components(string[] segment, int number) =>
        [.. Raw(segment, number).Split(component).Select(Unescape)];

    private string Unescape(string raw)
    {
        var plain = new StringBuilder();
        for (var i = 0; i < raw.Length; i++)
        {
            if (raw[i] != escape)
            {
                Assert.NotEqual(subcomponent, raw[i]);
                Assert.NotEqual(repetition, raw[i]);
                plain.Append(raw[i]);
                continue;
            }

            var end = raw.IndexOf(escape, i + 1);
            Assert.True(end > i, $"an escape sequence without end: {raw}");
            var sequence = raw[(i + 1)..end];
            plain.Append(
                sequence switch
                {
                    "F" => field,
                    "S" => component,
                    "T" => subcomponent,
                    "R" => repetition,
                    "E" => escape,
                    ['X', .. var hex] => (char)int.Parse(hex, NumberStyles.HexNumber, CultureInfo.InvariantCulture),
                    _ => throw new FormatException($"no escape sequence: {sequence}"),
                }
            );
            i = end;
        }

        return plain.ToString();
    }
}
