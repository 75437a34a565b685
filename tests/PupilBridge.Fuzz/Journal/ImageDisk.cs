using System.Globalization;
using PupilBridge.Journal;

namespace PupilBridge.Fuzz.Journal;

/// <summary>A disk that is an image: files in memory, for reading and, where a journal is made from nothing, for writing.</summary>
internal sealed class ImageDisk : IJournalDisk
{
    private readonly SortedDictionary<string, MemoryFile> files = new(StringComparer.Ordinal);
    private readonly List<MemoryFile> spare = [];
    private List<string>? names;

    public Guid BootId => Guid.Empty;

    /// <summary>The files' bytes, by the numbers in their names.</summary>
    public IEnumerable<(uint Number, byte[] Bytes)> Segments =>
        files.Select(file => (uint.Parse(file.Key.AsSpan(8, 10), CultureInfo.InvariantCulture), file.Value.Copy()));

    /// <summary>Holds an image instead of what it held.</summary>
    public void Hold(ReadOnlySpan<byte> bytes, in Image image)
    {
        spare.AddRange(files.Values);
        files.Clear();
        names = null;
        foreach (var place in image.Segments)
        {
            var file = spare.Count > 0 ? spare[^1] : new MemoryFile();
            if (spare.Count > 0)
                spare.RemoveAt(spare.Count - 1);
            file.Hold(bytes.Slice(place.Start, place.Length));
            files[Name(place.Number)] = file;
        }
    }

    /// <summary>The name of a segment's file; with <see cref="SealedJournals.KeyFile"/> set, of the file of its key.</summary>
    public static string Name(uint number) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"segment-{number & ~SealedJournals.KeyFile:D10}.{((number & SealedJournals.KeyFile) == 0 ? "pbj" : "key")}"
        );

    public IReadOnlyList<string> List(string folder) => names ??= [.. files.Keys];

    public IJournalFile Open(string path, JournalFileMode mode)
    {
        var name = Path.GetFileName(path);
        if (mode == JournalFileMode.CreateNew)
        {
            names = null;
            return files[name] = new MemoryFile();
        }

        return files.TryGetValue(name, out var file) ? file : throw new FileNotFoundException(null, name);
    }

    public void Rename(string path, string newPath)
    {
        names = null;
        files.Remove(Path.GetFileName(path), out var file);
        files.Add(Path.GetFileName(newPath), file!);
    }

    public void Delete(string path)
    {
        names = null;
        files.Remove(Path.GetFileName(path));
    }

    public void CreateFolder(string folder) { }

    public void SyncFolder(string folder) { }

    public long FreeBytes(string folder) => 1 << 30;

    public IDisposable Lock(JournalFolder folder) => new MemoryStream();

    public bool IsLocked(JournalFolder folder) => false;
}
