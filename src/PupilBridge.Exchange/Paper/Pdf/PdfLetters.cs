using PdfSharp.Drawing;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>The letters of one size, with the rule for breaking lines.</summary>
internal sealed class PdfLetters
{
    private readonly WordWidths widths;

    /// <summary>Makes them.</summary>
    /// <param name="step">How large they are, and how close lines stand.</param>
    /// <param name="widths">How wide words are.</param>
    public PdfLetters(PdfStep step, WordWidths widths)
    {
        (var size, Leading) = step;
        (Size, this.widths) = (size, widths);
        Plain = new XFont(ReportFonts.Family, size, XFontStyleEx.Regular);
        Bold = new XFont(ReportFonts.Family, size, XFontStyleEx.Bold);
        Small = new XFont(ReportFonts.Family, step.Small, XFontStyleEx.Regular);
        SmallBold = new XFont(ReportFonts.Family, step.Small, XFontStyleEx.Bold);
        Head = new XFont(ReportFonts.Family, size * 1.08, XFontStyleEx.Bold);
        Title = new XFont(ReportFonts.Family, size * 1.5, XFontStyleEx.Bold);
    }

    /// <summary>The size of plain letters, in points.</summary>
    public double Size { get; }

    /// <summary>How much higher a line is than its letters.</summary>
    public double Leading { get; }

    /// <summary>For what is said.</summary>
    public XFont Plain { get; }

    /// <summary>For names and heads of rows.</summary>
    public XFont Bold { get; }

    /// <summary>For sources and what stands beside.</summary>
    public XFont Small { get; }

    /// <summary>For names and heads of rows beside what stands in small letters.</summary>
    public XFont SmallBold { get; }

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
    /// <param name="first">The width of the first line, in points; null where it is that of the others.</param>
    public IReadOnlyList<string> Lines(string text, XFont font, double width, double? first = null)
    {
        List<string> lines = [];
        var (current, used, space) = ("", 0.0, Width(" ", font));
        foreach (var word in ReportFonts.Coverage.Printable(text).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            foreach (var piece in Pieces(word, font, width))
            {
                var wide = Width(piece, font);
                var room = lines.Count == 0 ? first ?? width : width;
                // With a first line that goes on behind another text, even the first word may have no room there.
                if (current.Length > 0 ? used + space + wide > room : lines.Count == 0 && wide > room)
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

    /// <summary>A text in one line: where it is too wide, its end is left out and the line says so.</summary>
    /// <param name="text">The text.</param>
    /// <param name="font">One of the fonts above.</param>
    /// <param name="width">The width of the line, in points.</param>
    public string Line(string text, XFont font, double width)
    {
        var printable = ReportFonts.Coverage.Printable(text);
        return Width(printable, font) <= width
            ? printable
            : Pieces(printable, font, width - Width("…", font)).First().TrimEnd() + "…";
    }

    /// <summary>A text in lines of one font.</summary>
    /// <param name="text">The text.</param>
    /// <param name="font">One of the fonts above.</param>
    /// <param name="width">The width of a line, in points.</param>
    /// <param name="indent">How far the lines stand in, in points.</param>
    public PdfLines Set(string text, XFont font, double width, double indent = 0) =>
        new(Lines(text, font, width), font, indent, font.Size * Leading);

    /// <summary>Two texts, the second of which goes on in smaller letters in the line in which the first one ends.</summary>
    /// <param name="text">The first text.</param>
    /// <param name="beside">The second one; may be empty.</param>
    /// <param name="width">The width of a line, in points.</param>
    /// <param name="indent">How far the lines stand in, in points.</param>
    public IReadOnlyList<PdfLines> RunIn(string text, string beside, double width, double indent)
    {
        var said = Set(text, Plain, width, indent);
        if (beside.Length == 0)
            return [said];
        var x = Width(said.Lines[^1], Plain) + Width("  ", Small);
        var lines = Lines(beside, Small, width, width - x);
        PdfLines rest = new([.. lines.Skip(1)], Small, indent, Small.Size * Leading);
        return [said with { Tail = new(lines[0], Small, x) }, rest];
    }

    private IEnumerable<string> Pieces(string word, XFont font, double width)
    {
        while (word.Length > 1 && Width(word, font) > width)
        {
            // Halving: letter by letter, a word of thousands would take minutes.
            var (fits, over) = (1, word.Length);
            while (over - fits > 1)
            {
                var middle = (fits + over) / 2;
                (fits, over) = Width(word[..middle], font) > width ? (fits, middle) : (middle, over);
            }

            if (char.IsHighSurrogate(word[fits - 1]) && fits > 1)
                fits--;
            yield return word[..fits];
            word = word[fits..];
        }

        yield return word;
    }
}
