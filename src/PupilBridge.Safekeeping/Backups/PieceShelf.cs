using System.Text.Json;
using PupilBridge.Journal;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>
/// The pieces that lie at a destination already: those of its complete backups, and those that an interrupted one finished, which it
/// notes one by one so that the next goes on from there.
/// </summary>
internal sealed class PieceShelf
{
    private readonly BackupPlace place;
    private readonly PieceStore store;
    private readonly Dictionary<string, SegmentPiece> segments = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Piece> files = new(StringComparer.Ordinal);
    private readonly UnfinishedBackup.Noted noted = new([], []);

    public PieceShelf(BackupPlace place, PieceStore store)
    {
        (this.place, this.store) = (place, store);
        foreach (var number in place.Numbers)
        {
            Add(place.CatalogueOf(number));
        }

        if (UnfinishedBackup.Noted.Read(place) is { } interrupted)
        {
            interrupted.Segments.ForEach(segment => segments.TryAdd(segment.Piece.File, segment));
            interrupted.Files.ForEach(piece => files.TryAdd(piece.File, piece));
            noted = interrupted;
            WentOn = interrupted.Segments.Count + interrupted.Files.Count > 0;
        }
    }

    /// <summary>Whether an interrupted backup left something.</summary>
    public bool WentOn { get; }

    /// <summary>A segment's piece that lies there; null if it does not.</summary>
    public SegmentPiece? Segment(string file) =>
        segments.TryGetValue(file, out var known) && store.Has(known.Piece) ? known : null;

    /// <summary>The archive of the other files with a content; null if it does not lie there.</summary>
    public Piece? Files(string file) => files.TryGetValue(file, out var known) && store.Has(known) ? known : null;

    /// <summary>Notes a piece that is complete.</summary>
    public void Note(SegmentPiece segment)
    {
        noted.Segments.Add(segment);
        Write();
    }

    /// <summary>Notes a piece that is complete.</summary>
    public void Note(Piece archive)
    {
        noted.Files.Add(archive);
        Write();
    }

    private void Write() => PrivateFile.Replace(place.UnfinishedCatalogue, JsonSerializer.SerializeToUtf8Bytes(noted));

    private void Add(string catalogue)
    {
        try
        {
            var known = Catalogue.Read(catalogue);
            foreach (var segment in known.Segments)
            {
                segments[segment.Piece.File] = segment;
            }

            files[known.Files.File] = known.Files;
        }
        catch (BackupException)
        {
            // A damaged catalogue costs its own backup; what it named is written again where no other names it.
        }
    }
}
