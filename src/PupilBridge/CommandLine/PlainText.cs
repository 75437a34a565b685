using System.Globalization;
using System.Text;

namespace PupilBridge.CommandLine;

/// <summary>
/// Text of somebody else's (an instrument, a file, a browser) as it may stand in a line for a terminal or a log: what would move the cursor,
/// change colours, begin a line of its own or turn the direction of writing stands there as its number.
/// </summary>
internal static class PlainText
{
    /// <summary>Makes a text harmless. One that is harmless is given back as it is.</summary>
    /// <param name="text">The text.</param>
    /// <returns>The same with each control and each mark of direction as <c>\uXXXX</c>.</returns>
    public static string Shown(string text)
    {
        if (!text.Any(IsHidden))
        {
            return text;
        }

        var shown = new StringBuilder(text.Length + 16);
        foreach (var one in text)
        {
            if (IsHidden(one))
            {
                shown.Append(CultureInfo.InvariantCulture, $"\\u{(int)one:X4}");
            }
            else
            {
                shown.Append(one);
            }
        }

        return shown.ToString();
    }

    // U+202A to U+202E and U+2066 to U+2069: embeddings, overrides and isolates of the Unicode bidirectional algorithm (UAX #9).
    private static bool IsHidden(char one) =>
        char.IsControl(one) || one is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069');
}
