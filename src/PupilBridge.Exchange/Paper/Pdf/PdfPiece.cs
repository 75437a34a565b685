using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>What belongs together for a reader who listens: a table or a list.</summary>
/// <param name="Tag">Its tag.</param>
internal sealed record PdfGroup(PdfBlockLevelElementTag Tag);

/// <summary>The sheet that is being drawn on.</summary>
/// <param name="Graphics">Where shapes go.</param>
/// <param name="Structure">Where their meaning goes.</param>
/// <param name="Left">The left margin, in points.</param>
/// <param name="Width">The width between the margins, in points.</param>
/// <param name="Letters">The letters.</param>
internal sealed record PdfPlace(
    XGraphics Graphics,
    StructureBuilder Structure,
    double Left,
    double Width,
    PdfLetters Letters
)
{
    /// <summary>How far the base line lies below the upper edge of a line, as a share of the letters' size.</summary>
    public const double BaseLine = 0.96;

    /// <summary>Sets one line.</summary>
    /// <param name="text">The line.</param>
    /// <param name="font">The font.</param>
    /// <param name="x">From the left edge of the sheet, in points.</param>
    /// <param name="y">The upper edge of the line, in points.</param>
    /// <param name="brush">The colour; null for black.</param>
    public void Set(string text, XFont font, double x, double y, XBrush? brush = null)
    {
        if (text.Length > 0)
            Graphics.DrawString(text, font, brush ?? XBrushes.Black, x, y + (font.Size * BaseLine));
    }
}

/// <summary>A piece of a report that stands on one sheet whole.</summary>
internal abstract class PdfPiece
{
    /// <summary>How high it is, in points.</summary>
    public abstract double Height { get; }

    /// <summary>Whether it must not be the last one on a sheet.</summary>
    public bool KeepsWithNext { get; init; }

    /// <summary>The table or list that it belongs to; null for none.</summary>
    public PdfGroup? Group { get; init; }

    /// <summary>What is set again on top of the next sheet if the group goes on there; null for nothing.</summary>
    public PdfPiece? Repeated { get; init; }

    /// <summary>Draws it.</summary>
    /// <param name="place">Where.</param>
    /// <param name="y">Its upper edge, in points.</param>
    public abstract void Draw(PdfPlace place, double y);
}
