using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>The key of a data folder's entry index, for who changes the master key; the caller holds the folder's lock.</summary>
/// <param name="disk">The disk.</param>
/// <param name="dataFolder">The data folder.</param>
internal sealed class EntryIndexKeys(IJournalDisk disk, string dataFolder) : IKeyHolder
{
    /// <inheritdoc/>
    public string Name => "entry index";

    /// <inheritdoc/>
    public IReadOnlyDictionary<MasterKeyId, int> Uses() =>
        new IndexFolder(disk, dataFolder).WrappedUnder().Select(one => one.Key).CountBy(key => key).ToDictionary();

    /// <inheritdoc/>
    public int WrapAnew(KeyRing keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        var folder = new IndexFolder(disk, dataFolder, new IndexSeal(keys, encrypt: true));
        var old = folder.WrappedUnder().Where(one => one.Key != keys.Current).ToList();
        if (old.Count == 0)
            return 0;
        if (folder.Load().FirstOrDefault() is { } newest)
            folder.Save(newest);
        // What is left of them cannot be opened, or stood for an earlier state: it follows from the journal.
        foreach (var (name, _) in old)
            folder.Delete(name);
        return old.Count;
    }
}
