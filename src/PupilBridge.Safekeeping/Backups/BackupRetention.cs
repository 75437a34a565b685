namespace PupilBridge.Safekeeping.Backups;

/// <summary>Deletes old backups, only ever when told to. Pieces that a backup which stays needs, stay.</summary>
public static class BackupRetention
{
    /// <summary>Keeps the latest backups and deletes the others.</summary>
    /// <param name="place">The destination.</param>
    /// <param name="count">How many are kept; at least one.</param>
    /// <returns>The numbers of those that were deleted.</returns>
    /// <exception cref="BackupException">A backup that is to stay cannot be read: then nothing is deleted.</exception>
    public static IReadOnlyList<int> Keep(BackupPlace place, int count)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        using var alone = PlaceLock.Take(place);
        var numbers = place.Numbers;
        int[] old = [.. numbers.Take(Math.Max(0, numbers.Count - count))];
        var needed = numbers
            .Except(old)
            .SelectMany(number => place.Find(number).Pieces)
            .Select(piece => piece.File)
            .ToHashSet(StringComparer.Ordinal);
        // Catalogues first: a backup whose pieces are gone must not look like one.
        foreach (var number in old)
        {
            File.Delete(place.CatalogueOf(number));
        }

        foreach (
            var path in old.Length == 0
                ? []
                : Directory.GetFiles(place.Pieces).Where(path => !needed.Contains(Path.GetFileName(path)))
        )
        {
            File.Delete(path);
        }

        return old;
    }
}
