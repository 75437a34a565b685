using System.Text;

namespace PupilBridge.Clinic.Text;

/// <summary>Makes the pseudo-language out of English.</summary>
internal static class PseudoText
{
    private const string Plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
    private const string Marked = "ÅƁÇĐÉƑĜĤÎĴĶĻṀÑÖÞǪŔŠŢÛṼŴẊÝŽåƀçđéƒĝĥîĵķļɱñöþǫŕšţûṽŵẋýž";

    /// <summary>How much longer each text is at least: as much as languages with long words need over English.</summary>
    private const double Longer = 0.4;

    /// <summary>
    /// The text with a mark on every letter, each word longer by its share, in brackets. Places for values, such as <c>{0:0.0}</c>,
    /// stay as they are.
    /// </summary>
    public static string Of(string english)
    {
        var text = new StringBuilder("⟦");
        var owed = 0.0;
        for (var i = 0; i < english.Length; i++)
        {
            if (english[i] == '{' && EndOfPlace(english, i) is { } end)
            {
                text.Append(english, i, end - i + 1);
                i = end;
                continue;
            }

            var letter = Plain.IndexOf(english[i], StringComparison.Ordinal);
            text.Append(letter < 0 ? english[i] : Marked[letter]);
            if (letter < 0)
                continue;
            owed += Longer;
            if (i + 1 == english.Length || !char.IsAsciiLetter(english[i + 1]))
                owed = Pay(text, owed);
        }

        return text.Append('⟧').ToString();
    }

    /// <summary>Makes a word longer by repeating its last letter.</summary>
    private static double Pay(StringBuilder text, double owed)
    {
        var letters = (int)Math.Ceiling(owed);
        text.Append(text[^1], letters);
        return owed - letters;
    }

    private static int? EndOfPlace(string english, int start)
    {
        var end = english.IndexOf('}', start);
        return end > start + 1 && char.IsAsciiDigit(english[start + 1]) ? end : null;
    }
}
