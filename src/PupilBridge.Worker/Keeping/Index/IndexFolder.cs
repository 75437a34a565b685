using System.Globalization;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>The files of the entry index: <c>entry-index</c> in the data folder. All may be deleted; they follow from the journal.</summary>
/// <param name="disk">The disk.</param>
/// <param name="dataFolder">The data folder.</param>
/// <param name="seal">How manifests are encrypted; null for not at all.</param>
internal sealed class IndexFolder(IJournalDisk disk, string dataFolder, FileSeal? seal = null)
{
    private const string ManifestEnd = ".known";
    private const string RunEnd = ".ids";
    private readonly string folder = Of(dataFolder);
    private readonly FileSeal seal = seal ?? FileSeal.None;
    private long lastNumber;

    /// <summary>A number for a file that no file has had.</summary>
    public long NextNumber() => ++lastNumber;

    public string RunPath(long number) => Path.Combine(folder, Name(number) + RunEnd);

    /// <summary>Makes the folder if it is missing.</summary>
    /// <exception cref="IOException">It cannot be made.</exception>
    public void Prepare() => disk.CreateFolder(folder);

    /// <summary>The manifests that lie there and are sound, the newest first.</summary>
    public IEnumerable<IndexManifest> Load()
    {
        var names = disk.List(folder);
        lastNumber = names.Select(NumberOf).DefaultIfEmpty().Max();
        foreach (var name in names.Where(IsManifest).OrderByDescending(NumberOf))
        {
            if (Read(Path.Combine(folder, name)) is { } manifest)
                yield return manifest;
        }
    }

    /// <summary>The keys of its manifests, for who changes the master key. They hold checksums of instruments' lines, by which a reading
    /// that is guessed could be confirmed.</summary>
    public static IKeyHolder KeysOf(IJournalDisk disk, string dataFolder) =>
        new SealedFiles(disk, Of(dataFolder), ManifestEnd, "entry index");

    /// <summary>Makes a manifest durable, and deletes what it does not name.</summary>
    /// <exception cref="IOException">It could not be written; the one before still stands.</exception>
    public void Save(IndexManifest manifest)
    {
        var name = Name(NextNumber()) + ManifestEnd;
        WholeFile.Write(disk, Path.Combine(folder, name), seal.Close(manifest.Encode()));
        DeleteAllBut([name, .. manifest.Runs.Select(run => Path.GetFileName(RunPath(run.Number)))]);
    }

    private void DeleteAllBut(HashSet<string> kept)
    {
        foreach (var name in disk.List(folder).Where(name => !kept.Contains(name)))
        {
            try
            {
                disk.Delete(Path.Combine(folder, name));
            }
            catch (IOException)
            {
                // Windows refuses while somebody reads it; the next manifest does not name it either.
            }
        }
    }

    private IndexManifest? Read(string path)
    {
        try
        {
            return seal.Open(WholeFile.Read(disk, path)) is { } plain ? IndexManifest.TryDecode(plain) : null;
        }
        catch (IOException)
        {
            // What cannot be read is as good as missing: it follows from the journal.
            return null;
        }
    }

    private static string Of(string dataFolder) => Path.Combine(dataFolder, "entry-index");

    private static bool IsManifest(string name) => name.EndsWith(ManifestEnd, StringComparison.Ordinal);

    private static string Name(long number) => number.ToString("D10", CultureInfo.InvariantCulture);

    private static long NumberOf(string name) =>
        long.TryParse(name.Split('.')[0], NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0;
}
