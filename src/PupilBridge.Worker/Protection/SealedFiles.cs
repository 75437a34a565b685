using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Worker.Protection;

/// <summary>
/// Files of one folder, each sealed by itself (<see cref="FileSeal"/>), among those whose keys a change of the master key wraps anew. They
/// follow from the journal: one that cannot be opened is deleted.
/// </summary>
/// <param name="disk">The disk.</param>
/// <param name="folder">The folder; the caller holds the data folder's lock.</param>
/// <param name="ending">How the names of the files end.</param>
/// <param name="name">What they are, for a person.</param>
internal sealed class SealedFiles(IJournalDisk disk, string folder, string ending, string name) : IKeyHolder
{
    /// <inheritdoc/>
    public string Name => name;

    /// <inheritdoc/>
    public IReadOnlyDictionary<MasterKeyId, int> Uses() =>
        Sealed().Select(file => file.Key).CountBy(key => key).ToDictionary();

    /// <inheritdoc/>
    public int WrapAnew(KeyRing keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        var seal = new FileSeal(keys, encrypt: true);
        var old = Sealed().Where(file => file.Key != keys.Current).ToList();
        foreach (var (path, bytes, _) in old)
        {
            if (seal.Open(bytes) is { } plain)
                WholeFile.Write(disk, path, seal.Close(plain));
            else
                disk.Delete(path);
        }

        return old.Count;
    }

    private IEnumerable<(string Path, byte[] Bytes, MasterKeyId Key)> Sealed()
    {
        foreach (var path in disk.List(folder).Where(IsOne).Select(file => Path.Combine(folder, file)))
        {
            var bytes = WholeFile.Read(disk, path);
            if (FileSeal.WrappedUnder(bytes) is { } key)
                yield return (path, bytes, key);
        }
    }

    private bool IsOne(string file) => file.EndsWith(ending, StringComparison.Ordinal);
}
