using System.Globalization;

namespace PupilBridge.ExamLog;

/// <summary>
/// Makes the texts by which exams are listed. Compared byte by byte they stand in the order of a list: by what it filters for,
/// then by time of opening, then by id, so that each page is one short range of one index and no two exams share a place.
/// </summary>
internal static class SortKey
{
    /// <summary>Lower than every character that an id or a status may hold.</summary>
    private const char Divider = '\n';
    private const int TimeDigits = 16;

    /// <summary>The place of an exam in a list.</summary>
    /// <param name="filter">What the list filters for; empty for the list of all.</param>
    /// <param name="openedAtMs">Milliseconds since 1970 in UTC.</param>
    /// <param name="examId">The exam's id.</param>
    public static string Of(string filter, long openedAtMs, string examId) => Edge(filter, openedAtMs) + examId;

    /// <summary>The time and the id in a key that <see cref="Of"/> made.</summary>
    /// <exception cref="InvalidDataException">It is none.</exception>
    public static ExamPlace PlaceIn(string key)
    {
        var id = key.LastIndexOf(Divider) + 1;
        var time = id - 1 - TimeDigits;
        return
            time > 0
            && ulong.TryParse(
                key.AsSpan(time, TimeDigits),
                NumberStyles.AllowHexSpecifier,
                CultureInfo.InvariantCulture,
                out var shifted
            )
            ? new ExamPlace(unchecked((long)(shifted ^ (1UL << 63))), key[id..])
            : throw new InvalidDataException("a key is not one");
    }

    /// <summary>What stands before all exams of a list that opened at this time or later, and after all earlier ones.</summary>
    public static string Edge(string filter, long openedAtMs)
    {
        // Shifted by 2^63 so that times before 1970 sort before those after.
        var shifted = unchecked((ulong)openedAtMs) ^ (1UL << 63);
        return string.Create(CultureInfo.InvariantCulture, $"{filter}{Divider}{shifted:X16}{Divider}");
    }

    /// <summary>What stands after all exams of a list.</summary>
    public static string End(string filter) => filter + (char)(Divider + 1);

    /// <summary>The place of something with a key of its own under a word.</summary>
    public static string OfWord(string word, string id) => $"{word}{Divider}{id}";

    /// <summary>What stands after every word that begins in this way.</summary>
    public static string EndOfBeginning(string beginning) => beginning + char.MaxValue;

    /// <summary>The id at the end of a key.</summary>
    public static string IdIn(string key) => key[(key.LastIndexOf(Divider) + 1)..];

    /// <summary>Whether a text can be part of a sort key.</summary>
    public static bool Allows(string text) => text.Length is > 0 and <= 128 && !text.Any(c => c < ' ');
}
