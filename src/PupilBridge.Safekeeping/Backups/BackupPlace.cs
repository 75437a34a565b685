using System.Globalization;

namespace PupilBridge.Safekeeping.Backups;

/// <summary>
/// The destination of backups: a folder with pieces and catalogues. A file has its name only once it is complete and on the disk;
/// what is being written ends with <c>.part</c>.
/// </summary>
/// <param name="Folder">Full path of the folder.</param>
public sealed record BackupPlace(string Folder)
{
    /// <summary>What a file's name ends with while it is being written.</summary>
    internal const string Unfinished = ".part";

    private const string CataloguePrefix = "backup-";
    private const string CatalogueSuffix = ".json";

    /// <summary>The folder of the pieces.</summary>
    public string Pieces => Path.Combine(Folder, "pieces");

    /// <summary>The catalogue of a backup that was begun and is not complete.</summary>
    internal string UnfinishedCatalogue => Path.Combine(Folder, "unfinished.json");

    /// <summary>The file that says how this destination is sealed, and proves the pass phrase.</summary>
    internal string Mark => Path.Combine(Folder, "opens-with");

    /// <summary>Full path of a piece.</summary>
    internal string PathOf(Piece piece) => Path.Combine(Pieces, Path.GetFileName(piece.File));

    /// <summary>Full path of a catalogue.</summary>
    internal string CatalogueOf(int number) =>
        Path.Combine(
            Folder,
            string.Create(CultureInfo.InvariantCulture, $"{CataloguePrefix}{number:D6}{CatalogueSuffix}")
        );

    /// <summary>The numbers of the complete backups, the oldest first.</summary>
    public IReadOnlyList<int> Numbers =>
        Directory.Exists(Folder)
            ?
            [
                .. Directory
                    .EnumerateFiles(Folder, CataloguePrefix + "*" + CatalogueSuffix)
                    .Select(path => Path.GetFileName(path)[CataloguePrefix.Length..^CatalogueSuffix.Length])
                    .Select(digits =>
                        int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 0
                    )
                    .Where(number => number > 0)
                    .Order(),
            ]
            : [];

    /// <summary>Reads the catalogue of a backup.</summary>
    /// <param name="number">Which one; null for the latest.</param>
    /// <exception cref="BackupException">There is none, or it is damaged.</exception>
    public Catalogue Find(int? number)
    {
        var numbers = Numbers;
        if (numbers.Count == 0)
        {
            throw UnfinishedBackup.At(this) is { } unfinished
                ? new BackupException(
                    BackupTrouble.Missing,
                    $"There is no complete backup in {Folder}, only an unfinished one ({unfinished.Pieces} complete pieces): it was interrupted, "
                        + "or is being made now.",
                    "Run 'pupilbridge backup' to that folder again: it goes on with what lies there. Nothing can be restored of it before."
                )
                : new BackupException(
                    BackupTrouble.Missing,
                    $"There is no complete backup in {Folder}.",
                    "Name the folder that 'pupilbridge backup' wrote to."
                );
        }

        return number is { } asked && !numbers.Contains(asked)
            ? throw new BackupException(
                BackupTrouble.Missing,
                $"There is no backup {asked} in {Folder}; there are {numbers[0]} to {numbers[^1]}.",
                "See them with 'pupilbridge backup list'."
            )
            : Catalogue.Read(CatalogueOf(number ?? numbers[^1]));
    }
}
