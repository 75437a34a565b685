using System.Globalization;
using System.Text;

namespace PupilBridge.Exchange.Paper;

/// <summary>
/// What people wrote, as it may stand on a report: what would turn the direction of what follows (a name that makes a date of birth read
/// backwards) and what is no character at all stands there as its number, and what would move a terminal's cursor as a blank.
/// </summary>
internal static class VisibleText
{
    /// <summary>Makes a text harmless. One that is harmless is given back as it is.</summary>
    /// <param name="text">The text.</param>
    /// <returns>The same with marks of direction and what is no character as <c>[U+XXXX]</c>, and controls, line ends among them, as blanks.</returns>
    public static string Of(string text)
    {
        if (!text.Any(one => char.IsControl(one) || Turns(one) || IsNone(one)))
            return text;
        var visible = new StringBuilder(text.Length + 16);
        foreach (var one in text)
        {
            if (Turns(one) || IsNone(one))
                visible.Append(CultureInfo.InvariantCulture, $"[U+{(int)one:X4}]");
            else
                visible.Append(char.IsControl(one) ? ' ' : one);
        }

        return visible.ToString();
    }

    /// <summary>Noncharacters, at which some readers of a page stop (Unicode Standard, section 23.7).</summary>
    private static bool IsNone(char one) => one is '\uFFFE' or '\uFFFF';

    /// <summary>
    /// U+202A to U+202E and U+2066 to U+2069: embeddings, overrides and isolates (Unicode Standard Annex 9). Names in scripts that are written
    /// from right to left need none of them.
    /// </summary>
    private static bool Turns(char one) => one is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069');
}
