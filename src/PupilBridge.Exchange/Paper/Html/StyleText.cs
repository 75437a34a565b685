using System.Globalization;
using System.Text;

namespace PupilBridge.Exchange.Paper.Html;

/// <summary>Words within a style sheet.</summary>
internal static class StyleText
{
    /// <summary>
    /// A text as a CSS string. The space after a number belongs to it. Whatever is no plain letter, digit or space is written by its number (CSS Syntax Module Level 3, 4.3.7), so
    /// that nothing that people wrote can end the string, the rule or the style.
    /// </summary>
    /// <param name="text">The text.</param>
    /// <returns>The string with its quotation marks.</returns>
    public static string Quoted(string text)
    {
        var quoted = new StringBuilder("\"");
        foreach (var rune in VisibleText.Of(text).EnumerateRunes())
        {
            if (rune.IsAscii && (Rune.IsLetterOrDigit(rune) || rune.Value == ' '))
                quoted.Append(rune.ToString());
            else
                quoted.Append(CultureInfo.InvariantCulture, $"\\{rune.Value:X6} ");
        }

        return quoted.Append('"').ToString();
    }
}
