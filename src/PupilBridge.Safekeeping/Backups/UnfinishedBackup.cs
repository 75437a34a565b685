using System.Text.Json;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>What lies at a destination of a backup that is being made, or was interrupted. It is no backup; the next one goes on with it.</summary>
/// <param name="Pieces">How many of its pieces are complete.</param>
/// <param name="StoredBytes">How many bytes they have.</param>
public sealed record UnfinishedBackup(int Pieces, long StoredBytes)
{
    /// <summary>Looks for one.</summary>
    /// <param name="place">The destination.</param>
    /// <returns>Null where none lies there.</returns>
    public static UnfinishedBackup? At(BackupPlace place)
    {
        ArgumentNullException.ThrowIfNull(place);
        var noted = Noted.Read(place)?.All.ToArray() ?? [];
        // One that was stopped after its catalogue stood is complete.
        var complete = noted.Length == 0 ? [] : Complete(place);
        var open = noted.Where(piece => !complete.Contains(piece.File)).ToArray();
        var isBegun = Directory.Exists(place.Pieces) && HasPart(place);
        return open.Length > 0 || isBegun || (place.Numbers.Count == 0 && File.Exists(place.Mark + ".txt"))
            ? new UnfinishedBackup(open.Length, open.Sum(piece => piece.StoredBytes))
            : null;
    }

    private static bool HasPart(BackupPlace place) =>
        Directory.EnumerateFiles(place.Pieces, "*" + BackupPlace.Unfinished).Any();

    private static HashSet<string> Complete(BackupPlace place)
    {
        HashSet<string> files = new(StringComparer.Ordinal);
        foreach (var number in place.Numbers)
        {
            try
            {
                files.UnionWith(Catalogue.Read(place.CatalogueOf(number)).Pieces.Select(piece => piece.File));
            }
            catch (BackupException)
            {
                // A damaged catalogue names nothing.
            }
        }

        return files;
    }

    /// <summary>The pieces that a backup notes one by one as they are complete.</summary>
    internal sealed record Noted(List<SegmentPiece> Segments, List<Piece> Files)
    {
        /// <summary>All of them.</summary>
        [System.Text.Json.Serialization.JsonIgnore]
        public IEnumerable<Piece> All => Segments.Select(segment => segment.Piece).Concat(Files);

        /// <summary>Reads what was noted; null where nothing was, or the file is damaged.</summary>
        public static Noted? Read(BackupPlace place)
        {
            if (!File.Exists(place.UnfinishedCatalogue))
            {
                return null;
            }

            try
            {
                return
                    JsonSerializer.Deserialize<Noted>(File.ReadAllBytes(place.UnfinishedCatalogue))
                        is { Segments: not null, Files: not null } noted
                    ? noted
                    : null;
            }
            catch (JsonException)
            {
                return null;
            }
        }
    }
}
