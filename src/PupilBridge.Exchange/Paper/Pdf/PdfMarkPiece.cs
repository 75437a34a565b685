using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>Something that must be seen first: a word in white on black, what it means beside it, and a frame around both.</summary>
/// <param name="word">The word.</param>
/// <param name="words">What it means.</param>
/// <param name="isWarning">Whether the frame is thick.</param>
/// <param name="letters">The letters.</param>
/// <param name="before">Free space above, in points.</param>
internal sealed class PdfMarkPiece(string word, PdfLines words, bool isWarning, PdfLetters letters, double before)
    : PdfPiece
{
    private const double Gap = 2;
    private const double Padding = 1.8;

    /// <inheritdoc/>
    public override double Height => before + words.Height + Gap + (2 * Padding);

    /// <summary>How wide the word is with its black ground, in points.</summary>
    public static double WordWidth(string word, PdfLetters letters) =>
        letters.Width(word, letters.Bold) + (1.2 * letters.Size);

    /// <inheritdoc/>
    public override void Draw(PdfPlace place, double y)
    {
        y += before;
        var high = Height - before - Gap;
        place.Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
        var pen = new XPen(XColors.Black, isWarning ? 1.4 : 0.5);
        place.Graphics.DrawRectangle(pen, place.Left, y, place.Width, high);
        if (isWarning)
            place.Graphics.DrawRectangle(XBrushes.Black, place.Left, y, WordWidth(word, letters), high);
        place.Set(
            word,
            letters.Bold,
            place.Left + (0.6 * letters.Size),
            y + Padding,
            isWarning ? XBrushes.White : XBrushes.Black
        );
        var top = y + Padding;
        foreach (var line in words.Lines)
        {
            place.Set(line, words.Font, place.Left + words.Indent, top);
            top += words.LineHeight;
        }

        place.Structure.End();
    }
}
