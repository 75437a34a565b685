using System.Globalization;
using System.Text;

namespace PupilBridge.Clinic.DayLists;

/// <summary>The watched folder on the disk: what lies in it, and where files go.</summary>
/// <param name="path">The folder.</param>
internal sealed class DayListFolder(string path)
{
    private const string TakenFolder = "taken";
    private const string RefusedFolder = "refused";

    /// <summary>The CSV files in it by name, each with the size it has now.</summary>
    /// <exception cref="IOException">The folder is not there, or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be read.</exception>
    public IReadOnlyList<SeenFile> Look() =>
        [
            .. new DirectoryInfo(path)
                .EnumerateFiles("*", SearchOption.TopDirectoryOnly)
                .Where(file => IsList(file.Name))
                .OrderBy(file => file.Name, StringComparer.Ordinal)
                .Select(file => new SeenFile(file.FullName, file.Length, file.LastWriteTimeUtc.Ticks)),
        ];

    /// <summary>Puts a file that was taken aside.</summary>
    /// <returns>Where it lies now.</returns>
    /// <exception cref="IOException">It cannot be moved.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be moved.</exception>
    public string PutTaken(SeenFile file, DateTimeOffset now) => Move(file, TakenFolder, now);

    /// <summary>Puts a file that was refused aside, with a report beside it.</summary>
    /// <returns>Where it lies now.</returns>
    /// <exception cref="IOException">It cannot be moved, or the report cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be moved.</exception>
    public string PutRefused(SeenFile file, IEnumerable<string> report, DateTimeOffset now)
    {
        var moved = Move(file, RefusedFolder, now);
        File.WriteAllLines(moved + ".txt", report, new UTF8Encoding(false));
        return moved;
    }

    private string Move(SeenFile file, string folder, DateTimeOffset now)
    {
        var into = Directory.CreateDirectory(Path.Combine(path, folder)).FullName;
        var stem = Path.GetFileNameWithoutExtension(file.Path);
        var stamp = now.UtcDateTime.ToString("yyyyMMdd-HHmmss", CultureInfo.InvariantCulture);
        var target = Path.Combine(into, Path.GetFileName(file.Path));
        for (var n = 1; File.Exists(target); n++)
        {
            // Nothing that lies there is ever overwritten.
            var suffix = n == 1 ? stamp : string.Create(CultureInfo.InvariantCulture, $"{stamp}-{n}");
            target = Path.Combine(into, $"{stem} {suffix}{Path.GetExtension(file.Path)}");
        }

        File.Move(file.Path, target);
        return target;
    }

    /// <summary>Files that begin with a dot or a tilde are on their way, or belong to another program.</summary>
    private static bool IsList(string name) =>
        name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) && name[0] is not ('.' or '~');
}

/// <summary>A file as it was at one look.</summary>
/// <param name="Path">Where it lies.</param>
/// <param name="Length">How many bytes it has.</param>
/// <param name="Changed">When it was written last, in the system's own ticks.</param>
internal readonly record struct SeenFile(string Path, long Length, long Changed);
