using System.Globalization;
using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>The files of the entry index: <c>entry-index</c> in the data folder. All may be deleted; they follow from the journal.</summary>
/// <param name="disk">The disk.</param>
/// <param name="dataFolder">The data folder.</param>
/// <param name="seal">How manifests are encrypted; null for not at all.</param>
internal sealed class IndexFolder(IJournalDisk disk, string dataFolder, IndexSeal? seal = null)
{
    private const string ManifestEnd = ".known";
    private const string RunEnd = ".ids";
    private const string Unfinished = ".new";
    private readonly string folder = Path.Combine(dataFolder, "entry-index");
    private readonly IndexSeal seal = seal ?? IndexSeal.None;
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

    /// <summary>The encrypted manifests, and under which master key the key of each is wrapped.</summary>
    public IReadOnlyList<(string Name, MasterKeyId Key)> WrappedUnder() =>
        [
            .. disk.List(folder)
                .Where(IsManifest)
                .Select(name =>
                    (name, Bytes(Path.Combine(folder, name)) is { } all ? IndexSeal.WrappedUnder(all) : null)
                )
                .Where(one => one.Item2 is not null)
                .Select(one => (one.name, one.Item2!.Value)),
        ];

    /// <summary>Deletes a file; nothing happens when there is none.</summary>
    /// <exception cref="IOException">It cannot be deleted.</exception>
    public void Delete(string name) => disk.Delete(Path.Combine(folder, name));

    /// <summary>Makes a manifest durable, and deletes what it does not name.</summary>
    /// <exception cref="IOException">It could not be written; the one before still stands.</exception>
    public void Save(IndexManifest manifest)
    {
        var name = Name(NextNumber()) + ManifestEnd;
        var beside = Path.Combine(folder, name + Unfinished);
        using (var file = disk.Open(beside, JournalFileMode.CreateNew))
        {
            file.Write(seal.Close(manifest.Encode()), 0);
            file.Sync();
        }

        disk.Rename(beside, Path.Combine(folder, name));
        disk.SyncFolder(folder);
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

    private IndexManifest? Read(string path) =>
        Bytes(path) is { } bytes && seal.Open(bytes) is { } plain ? IndexManifest.TryDecode(plain) : null;

    private byte[]? Bytes(string path)
    {
        try
        {
            using var file = disk.Open(path, JournalFileMode.Read);
            var bytes = new byte[file.Length];
            return file.Read(bytes, 0) == bytes.Length ? bytes : null;
        }
        catch (IOException)
        {
            // What cannot be read is as good as missing: it follows from the journal.
            return null;
        }
    }

    private static bool IsManifest(string name) => name.EndsWith(ManifestEnd, StringComparison.Ordinal);

    private static string Name(long number) => number.ToString("D10", CultureInfo.InvariantCulture);

    private static long NumberOf(string name) =>
        long.TryParse(name.Split('.')[0], NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0;
}
