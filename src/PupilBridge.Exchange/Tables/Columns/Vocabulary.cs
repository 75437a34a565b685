using System.Text.Json;

namespace PupilBridge.Exchange.Tables.Columns;

/// <summary>The words that a column of fixed words may hold, as the dictionary names them.</summary>
internal static class Vocabulary
{
    public const string Eyes = "right, left";
    public const string Grades = "0, 0.5, 1, … 4; ? = it was looked for and could not be seen";
    public const string Counting = "0 or more";

    /// <summary>All words of an enumeration, as records write them.</summary>
    public static string Of<T>()
        where T : struct, Enum =>
        string.Join(", ", Enum.GetNames<T>().Select(name => JsonNamingPolicy.KebabCaseLower.ConvertName(name)));
}
