using PdfSharp.UniversalAccessibility;

namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>One name with its value.</summary>
/// <param name="X">Where it begins, from the left margin, in points.</param>
/// <param name="Name">The name.</param>
/// <param name="Value">The value; its indent is from <paramref name="X"/>.</param>
internal sealed record PdfFact(double X, PdfLines Name, PdfLines Value);

/// <summary>Names with values side by side, each pair read together.</summary>
/// <param name="facts">One or two of them.</param>
internal sealed class PdfFactsPiece(IReadOnlyList<PdfFact> facts) : PdfPiece
{
    /// <inheritdoc/>
    public override double Height => facts.Max(fact => Math.Max(fact.Name.Height, fact.Value.Height));

    /// <inheritdoc/>
    public override void Draw(PdfPlace place, double y)
    {
        foreach (var fact in facts)
        {
            place.Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
            Set(place, fact.Name, fact.X, y);
            Set(place, fact.Value, fact.X + fact.Value.Indent, y);
            place.Structure.End();
        }
    }

    private static void Set(PdfPlace place, PdfLines lines, double x, double y)
    {
        foreach (var line in lines.Lines)
        {
            place.Set(line, lines.Font, place.Left + x, y);
            y += lines.LineHeight;
        }
    }
}
