using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>
/// Which characters a font has, out of its character map (OpenType specification, table "cmap", format 12). A character that it has not
/// would be an empty box on paper, and a name with boxes is nobody's name: it is written by its number instead.
/// </summary>
internal sealed class GlyphCoverage
{
    private readonly (uint First, uint Last)[] ranges;

    private GlyphCoverage((uint, uint)[] ranges) => this.ranges = ranges;

    /// <summary>Reads a font.</summary>
    /// <param name="font">An OpenType or TrueType file with a character map of format 12.</param>
    /// <exception cref="FormatException">It has none.</exception>
    public static GlyphCoverage Of(ReadOnlySpan<byte> font)
    {
        var map = Table(font, "cmap"u8);
        var tables = U16(map, 2);
        for (var n = 0; n < tables; n++)
        {
            var sub = map[(int)U32(map, 4 + (n * 8) + 4)..];
            if (U16(sub, 0) != 12)
                continue;
            var ranges = new (uint, uint)[U32(sub, 12)];
            for (var g = 0; g < ranges.Length; g++)
                ranges[g] = (U32(sub, 16 + (g * 12)), U32(sub, 20 + (g * 12)));
            return new(ranges);
        }

        throw new FormatException("The font has no character map of format 12.");
    }

    /// <summary>Whether it has a character.</summary>
    /// <param name="character">The character.</param>
    public bool Has(Rune character)
    {
        var value = (uint)character.Value;
        return Array.Exists(ranges, range => range.First <= value && value <= range.Last);
    }

    /// <summary>A text with what the font has not, and what would turn the direction, as <c>[U+XXXX]</c>, and control characters as spaces.</summary>
    /// <param name="text">The text.</param>
    public string Printable(string text)
    {
        if (text.All(c => c is >= ' ' and <= '~'))
            return text;
        var printable = new StringBuilder(text.Length);
        foreach (var rune in VisibleText.Of(text).EnumerateRunes())
        {
            if (Has(rune))
                printable.Append(rune.ToString());
            else
                printable.Append(CultureInfo.InvariantCulture, $"[U+{rune.Value:X4}]");
        }

        return printable.ToString();
    }

    private static ReadOnlySpan<byte> Table(ReadOnlySpan<byte> font, ReadOnlySpan<byte> tag)
    {
        var count = U16(font, 4);
        for (var n = 0; n < count; n++)
        {
            var entry = font.Slice(12 + (n * 16), 16);
            if (entry[..4].SequenceEqual(tag))
                return font.Slice((int)U32(entry, 8), (int)U32(entry, 12));
        }

        throw new FormatException("The font has no character map.");
    }

    private static ushort U16(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]);

    private static uint U32(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt32BigEndian(bytes[at..]);
}
