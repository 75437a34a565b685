using PdfSharp.Drawing;

namespace PupilBridge.Exchange.Report.Pdf;

/// <summary>The letters of one size, with the rule for breaking lines.</summary>
internal sealed class PdfLetters
{
    /// <summary>How much higher a line is than its letters.</summary>
    public const double Leading = 1.21;

    private readonly WordWidths widths;

    /// <summary>Makes them.</summary>
    /// <param name="size">The size of plain letters, in points.</param>
    /// <param name="widths">How wide words are.</param>
    public PdfLetters(double size, WordWidths widths)
    {
        (Size, this.widths) = (size, widths);
        Plain = new XFont(ReportFonts.Family, size, XFontStyleEx.Regular);
        Bold = new XFont(ReportFonts.Family, size, XFontStyleEx.Bold);
        Small = new XFont(ReportFonts.Family, size * 0.86, XFontStyleEx.Regular);
        Head = new XFont(ReportFonts.Family, size * 1.12, XFontStyleEx.Bold);
        Title = new XFont(ReportFonts.Family, size * 1.6, XFontStyleEx.Bold);
    }

    /// <summary>The size of plain letters, in points.</summary>
    public double Size { get; }

    /// <summary>For what is said.</summary>
    public XFont Plain { get; }

    /// <summary>For names and heads of rows.</summary>
    public XFont Bold { get; }

    /// <summary>For sources and what stands beside.</summary>
    public XFont Small { get; }

    /// <summary>For heads of sections.</summary>
    public XFont Head { get; }

    /// <summary>For the title.</summary>
    public XFont Title { get; }

    /// <summary>How wide a text is, in points.</summary>
    /// <param name="text">The text.</param>
    /// <param name="font">One of the fonts above.</param>
    public double Width(string text, XFont font) => widths.Of(text, font.Bold) * font.Size;

    /// <summary>Breaks a text into lines. A word wider than a line is broken where it must be.</summary>
    /// <param name="text">The text.</param>
    /// <param name="font">One of the fonts above.</param>
    /// <param name="width">The width of a line, in points.</param>
    /// <returns>At least one line.</returns>
    public IReadOnlyList<string> Lines(string text, XFont font, double width)
    {
        List<string> lines = [];
        var (current, used, space) = ("", 0.0, Width(" ", font));
        foreach (var word in ReportFonts.Coverage.Printable(text).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            foreach (var piece in Pieces(word, font, width))
            {
                var wide = Width(piece, font);
                if (current.Length > 0 && used + space + wide > width)
                {
                    lines.Add(current);
                    (current, used) = ("", 0);
                }

                (current, used) = current.Length == 0 ? (piece, wide) : ($"{current} {piece}", used + space + wide);
            }
        }

        if (current.Length > 0 || lines.Count == 0)
            lines.Add(current);
        return lines;
    }

    private IEnumerable<string> Pieces(string word, XFont font, double width)
    {
        while (word.Length > 1 && Width(word, font) > width)
        {
            var fits = word.Length - 1;
            while (fits > 1 && Width(word[..fits], font) > width)
                fits--;
            if (char.IsHighSurrogate(word[fits - 1]) && fits > 1)
                fits--;
            yield return word[..fits];
            word = word[fits..];
        }

        yield return word;
    }
}
