namespace PupilBridge.Exchange.Paper.Pdf;

/// <summary>Where each piece stands: on which sheet, and how far down.</summary>
internal static class PdfPages
{
    /// <summary>Fills sheets one after the other; a head stays with what follows it, and a table's head is set again.</summary>
    /// <param name="pieces">The pieces in order.</param>
    /// <param name="first">How much room the first sheet has, in points.</param>
    /// <param name="others">How much room each other one has, in points.</param>
    /// <returns>For each sheet its pieces, each with its distance from the top of the room.</returns>
    public static IReadOnlyList<IReadOnlyList<(PdfPiece Piece, double Y)>> Of(
        IReadOnlyList<PdfPiece> pieces,
        double first,
        double others
    )
    {
        List<List<(PdfPiece, double)>> sheets =
        [
            [],
        ];
        var y = 0.0;
        for (var n = 0; n < pieces.Count; n++)
        {
            var room = sheets.Count == 1 ? first : others;
            if (sheets[^1].Count > 0 && y + Needed(pieces, n) > room)
            {
                sheets.Add([]);
                y = 0;
                if (pieces[n].Repeated is { } head)
                {
                    sheets[^1].Add((head, y));
                    y += head.Height;
                }
            }

            sheets[^1].Add((pieces[n], y));
            y += pieces[n].Height;
        }

        return sheets;
    }

    /// <summary>Draws pieces, with the tables and lists that they belong to around them.</summary>
    /// <param name="place">Where.</param>
    /// <param name="pieces">The pieces, each with its distance from the top.</param>
    /// <param name="top">The top, in points.</param>
    public static void Draw(PdfPlace place, IEnumerable<(PdfPiece Piece, double Y)> pieces, double top)
    {
        PdfGroup? group = null;
        foreach (var (piece, y) in pieces)
        {
            if (group != piece.Group)
            {
                if (group is not null)
                    place.Structure.End();
                if (piece.Group is not null)
                    place.Structure.BeginElement(piece.Group.Tag);
                group = piece.Group;
            }

            piece.Draw(place, top + y);
        }

        // What goes on overleaf or in the next column is a table or list of its own there: nothing spans two.
        if (group is not null)
            place.Structure.End();
    }

    /// <summary>A piece with what must stand on the same sheet after it.</summary>
    private static double Needed(IReadOnlyList<PdfPiece> pieces, int from)
    {
        var height = pieces[from].Height;
        for (var n = from; pieces[n].KeepsWithNext && n + 1 < pieces.Count; n++)
            height += pieces[n + 1].Height;
        return height;
    }
}
