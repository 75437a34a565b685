using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace PupilBridge.Exchange.Report.Pdf;

/// <summary>One run of lines in one font.</summary>
/// <param name="Lines">The lines.</param>
/// <param name="Font">The font.</param>
/// <param name="Indent">How far it stands in from the left margin, in points.</param>
internal sealed record PdfLines(IReadOnlyList<string> Lines, XFont Font, double Indent)
{
    /// <summary>The height of one line, in points.</summary>
    public double LineHeight => Font.Size * PdfLetters.Leading;

    /// <summary>The height of all, in points.</summary>
    public double Height => Lines.Count * LineHeight;
}

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
