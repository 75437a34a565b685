using System.Globalization;

namespace PupilBridge.Journal;

/// <summary>The names of the files beside each other in the segment folder.</summary>
internal static class SegmentName
{
    private const string Prefix = "segment-";
    private const string Suffix = ".pbj";
    private const string KeySuffix = ".key";

    /// <summary>The ending of a segment that is still being made; such a file holds nothing yet.</summary>
    public const string Unfinished = ".new";

    public static string Of(long number) =>
        string.Create(CultureInfo.InvariantCulture, $"{Prefix}{number:D10}{Suffix}");

    /// <summary>The name under which bytes beyond <paramref name="offset"/> of a segment are set aside.</summary>
    public static string SetAside(long number, long offset) =>
        string.Create(CultureInfo.InvariantCulture, $"{Of(number)}.tail-{offset}");

    /// <summary>The file beside a segment that holds its wrapped key.</summary>
    public static string KeyOf(long number) =>
        string.Create(CultureInfo.InvariantCulture, $"{Prefix}{number:D10}{KeySuffix}");

    public static bool TryParseKey(string name, out long number)
    {
        number = 0;
        return name.EndsWith(KeySuffix, StringComparison.Ordinal)
            && TryParse(name[..^KeySuffix.Length] + Suffix, out number);
    }

    public static bool IsSetAside(string name) => name.Contains(Suffix + ".tail-", StringComparison.Ordinal);

    public static bool TryParse(string name, out long number)
    {
        number = 0;
        return name.StartsWith(Prefix, StringComparison.Ordinal)
            && name.EndsWith(Suffix, StringComparison.Ordinal)
            && long.TryParse(
                name.AsSpan(Prefix.Length, name.Length - Prefix.Length - Suffix.Length),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out number
            )
            && number > 0
            && name == Of(number);
    }
}
