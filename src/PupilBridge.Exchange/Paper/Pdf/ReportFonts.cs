using PdfSharp.Fonts;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>
/// The letters that reports are set in: DejaVu Sans Condensed, which comes with the program and may be embedded (its licence lies beside
/// the files). No font of the machine is ever used, so that paper looks alike everywhere.
/// </summary>
internal sealed class ReportFonts : IFontResolver
{
    /// <summary>The family's name.</summary>
    public const string Family = "DejaVu Sans Condensed";

    private const string Regular = "DejaVuSansCondensed";
    private const string Bold = "DejaVuSansCondensed-Bold";
    private static readonly Lazy<bool> Registered = new(Register);

    /// <summary>Which characters can be set.</summary>
    public static GlyphCoverage Coverage { get; } = GlyphCoverage.Of(Load(Regular));

    /// <summary>The bytes of a face.</summary>
    /// <param name="isBold">Whether the bold one.</param>
    public static byte[] Bytes(bool isBold) => Load(isBold ? Bold : Regular);

    /// <summary>Makes the fonts known to the library, once in a process.</summary>
    public static void Use() => _ = Registered.Value;

    /// <inheritdoc/>
    public byte[]? GetFont(string faceName) => Load(faceName);

    /// <inheritdoc/>
    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        familyName == Family ? new FontResolverInfo(isBold ? Bold : Regular) : null;

    private static bool Register()
    {
        GlobalFontSettings.FontResolver ??= new ReportFonts();
        return true;
    }

    private static byte[] Load(string face)
    {
        using var stream =
            typeof(ReportFonts).Assembly.GetManifestResourceStream($"font:{face}")
            ?? throw new InvalidOperationException($"The font {face} is not part of this program; install it anew.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }
}
