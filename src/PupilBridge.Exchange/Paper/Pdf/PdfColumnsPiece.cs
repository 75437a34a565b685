namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>Two columns side by side on one sheet, the left one read first; as high as the higher one.</summary>
internal sealed class PdfColumnsPiece : PdfPiece
{
    private readonly IReadOnlyList<PdfPiece> left;
    private readonly IReadOnlyList<PdfPiece> right;
    private readonly double column;
    private readonly double gap;

    private PdfColumnsPiece(IReadOnlyList<PdfPiece> pieces, int split, double column, double gap)
    {
        (left, right) = ([.. pieces.Take(split)], [.. pieces.Skip(split)]);
        (this.column, this.gap) = (column, gap);
    }

    /// <inheritdoc/>
    public override double Height => Math.Max(left.Sum(p => p.Height), right.Sum(p => p.Height));

    /// <summary>Parts pieces between two columns so that both are as low as can be; a head stays with what follows it.</summary>
    /// <param name="pieces">The pieces in order, each made for the width of one column.</param>
    /// <param name="column">The width of a column, in points.</param>
    /// <param name="gap">What stays free between them, in points.</param>
    public static PdfColumnsPiece Of(IReadOnlyList<PdfPiece> pieces, double column, double gap)
    {
        var best = new PdfColumnsPiece(pieces, pieces.Count, column, gap);
        for (var split = 1; split < pieces.Count; split++)
        {
            var next = new PdfColumnsPiece(pieces, split, column, gap);
            if (!pieces[split - 1].KeepsWithNext && next.Height < best.Height)
                best = next;
        }

        return best;
    }

    /// <inheritdoc/>
    public override void Draw(PdfPlace place, double y)
    {
        PdfPages.Draw(place with { Width = column }, Stacked(left), y);
        PdfPages.Draw(place with { Left = place.Left + column + gap, Width = column }, Stacked(right), y);
    }

    private static IEnumerable<(PdfPiece, double)> Stacked(IReadOnlyList<PdfPiece> pieces)
    {
        var y = 0.0;
        foreach (var piece in pieces)
        {
            yield return (piece, y);
            y += piece.Height;
        }
    }
}
