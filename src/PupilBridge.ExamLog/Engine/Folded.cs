using System.Globalization;

namespace PupilBridge.ExamLog;

/// <summary>Texts made alike whose letters differ only in upper and lower case, for keys to search by.</summary>
internal static class Folded
{
    /// <summary>The most words of one text that are searched by; nobody types more of a name.</summary>
    private const int MostWords = 16;

    /// <summary>The most characters of a word that are searched by.</summary>
    private const int MostCharacters = 64;

    /// <summary>The text without the difference of upper and lower case.</summary>
    public static string Of(string text) => text.ToUpperInvariant();

    /// <summary>
    /// The folded words of a text, each once, in the order of their characters. A word is a run of letters and digits, so that
    /// <c>Q-1001</c> is found by <c>q</c> and by <c>1001</c>.
    /// </summary>
    public static IReadOnlyList<string> WordsOf(string text)
    {
        var words = new SortedSet<string>(StringComparer.Ordinal);
        var folded = Of(text);
        var from = 0;
        for (var at = 0; at <= folded.Length && words.Count < MostWords; at++)
        {
            if (at < folded.Length && IsInWord(folded[at]))
            {
                continue;
            }

            if (at > from)
            {
                words.Add(Beginning(folded[from..at]));
            }

            from = at + 1;
        }

        return [.. words];
    }

    private static string Beginning(string word)
    {
        if (word.Length <= MostCharacters)
        {
            return word;
        }

        // Half of a character that takes two places would be stored as something else.
        return word[..(char.IsLowSurrogate(word[MostCharacters]) ? MostCharacters - 1 : MostCharacters)];
    }

    private static bool IsInWord(char character) =>
        char.IsLetterOrDigit(character)
        || char.IsSurrogate(character)
        || char.GetUnicodeCategory(character) is UnicodeCategory.NonSpacingMark or UnicodeCategory.SpacingCombiningMark;
}
