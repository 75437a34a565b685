using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>One run of lines in one font.</summary>
/// <param name="Lines">The lines.</param>
/// <param name="Font">The font.</param>
/// <param name="Indent">How far it stands in from the left margin, in points.</param>
/// <param name="LineHeight">The height of one line, in points.</param>
internal sealed record PdfLines(IReadOnlyList<string> Lines, XFont Font, double Indent, double LineHeight)
{
    /// <summary>What goes on behind the last line in another font; null for nothing.</summary>
    public PdfTail? Tail { get; init; }

    /// <summary>The height of all, in points.</summary>
    public double Height => Lines.Count * LineHeight;
}

/// <summary>The beginning of a text that goes on behind another one in the same line.</summary>
/// <param name="Text">The words that have room there.</param>
/// <param name="Font">Their font.</param>
/// <param name="X">Where they begin, from the indent, in points.</param>
internal sealed record PdfTail(string Text, XFont Font, double X);

/// <summary>Lines under one tag: a heading, a paragraph, an item of a list.</summary>
/// <param name="tag">The tag.</param>
/// <param name="runs">The lines.</param>
/// <param name="before">Free space above, in points.</param>
internal sealed class PdfTextPiece(PdfBlockLevelElementTag tag, IReadOnlyList<PdfLines> runs, double before) : PdfPiece
{
    /// <summary>Whether a rule stands below.</summary>
    public bool IsRuled { get; init; }

    /// <summary>What stands before the first line of a list's item; null for nothing.</summary>
    public string? Bullet { get; init; }

    /// <inheritdoc/>
    public override double Height => before + runs.Sum(run => run.Height) + (IsRuled ? 2 : 0);

    /// <inheritdoc/>
    public override void Draw(PdfPlace place, double y)
    {
        y += before;
        place.Structure.BeginElement(tag);
        if (Bullet is not null)
        {
            place.Structure.BeginElement(PdfBlockLevelElementTag.Label);
            place.Set(Bullet, runs[0].Font, place.Left, y);
            place.Structure.End();
            place.Structure.BeginElement(PdfBlockLevelElementTag.ListBody);
        }

        foreach (var run in runs)
        {
            foreach (var line in run.Lines)
            {
                place.Set(line, run.Font, place.Left + run.Indent, y);
                y += run.LineHeight;
            }

            if (run.Tail is { } tail)
            {
                // On the same base line, whatever the sizes.
                var top = y - run.LineHeight + ((run.Font.Size - tail.Font.Size) * PdfPlace.BaseLine);
                place.Set(tail.Text, tail.Font, place.Left + run.Indent + tail.X, top);
            }
        }

        if (Bullet is not null)
            place.Structure.End();
        place.Structure.End();
        if (!IsRuled)
            return;
        place.Structure.BeginArtifact();
        place.Graphics.DrawLine(new XPen(XColors.Black, 0.5), place.Left, y + 0.5, place.Left + place.Width, y + 0.5);
        place.Structure.End();
    }
}
