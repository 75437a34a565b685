using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>
/// Takes the dice out of a PDF file: the library gives every file identifiers by chance and the time of day, and then the same report would
/// be another file each time it is asked for. Each is replaced by one of the same length that follows from the report.
/// </summary>
internal static partial class SettledFile
{
    /// <summary>The file with identifiers that follow from what it says.</summary>
    /// <param name="file">A file as the library wrote it; nothing in it may be compressed but streams.</param>
    /// <param name="seed">What it says.</param>
    public static byte[] Of(byte[] file, string seed)
    {
        var id = Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(seed)));
        List<string> fonts = [];
        // One byte is one character, so that every length stays as the table of offsets says.
        var text = Encoding.Latin1.GetString(file);
        text = FontTag().Replace(text, match => Tag(fonts, match.Value));
        text = FileId().Replace(text, match => Hexadecimal().Replace(match.Value, $"<{id[..32]}>"));
        text = Uuid().Replace(text, match => Uuid(id, match.Value));
        return Encoding.Latin1.GetBytes(text);
    }

    /// <summary>The tag of the font of which a part is embedded: six letters by its place in the file (ISO 32000-1, 9.6.4).</summary>
    private static string Tag(List<string> fonts, string found)
    {
        if (!fonts.Contains(found))
            fonts.Add(found);
        return string.Create(CultureInfo.InvariantCulture, $"AAAAA{(char)('A' + fonts.IndexOf(found))}{found[6..]}");
    }

    private static string Uuid(string id, string found)
    {
        var digits = 0;
        return string.Concat(found.Select((c, n) => n < 5 || c == '-' ? c : char.ToLowerInvariant(id[digits++])));
    }

    [GeneratedRegex(@"[A-Z]{6}\+DejaVu")]
    private static partial Regex FontTag();

    [GeneratedRegex(@"/ID\s*\[\s*<[0-9A-Fa-f]{32}>\s*<[0-9A-Fa-f]{32}>\s*\]")]
    private static partial Regex FileId();

    [GeneratedRegex("<[0-9A-Fa-f]{32}>")]
    private static partial Regex Hexadecimal();

    [GeneratedRegex("uuid:[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}")]
    private static partial Regex Uuid();
}
