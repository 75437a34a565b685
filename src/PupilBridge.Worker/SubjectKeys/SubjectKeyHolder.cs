using PupilBridge.Journal;
using PupilBridge.Keys;

namespace PupilBridge.Worker.SubjectKeys;

/// <summary>The one key of a data folder's subject keys that is wrapped under a master key, for who changes the master key.</summary>
/// <param name="disk">The disk.</param>
/// <param name="dataFolder">The data folder, whose lock the caller holds.</param>
public sealed class SubjectKeyHolder(IJournalDisk disk, string dataFolder) : IKeyHolder
{
    /// <inheritdoc/>
    public string Name => "the keys of what identifies patients";

    /// <inheritdoc/>
    public IReadOnlyDictionary<MasterKeyId, int> Uses() =>
        SubjectKeyStore
            .Heads(disk, dataFolder)
            .Where(head => head.IsWrapped)
            .Select(head => KeyRing.WrappedUnder(head.FileKey.Span))
            .Distinct()
            .ToDictionary(id => id, _ => 1);

    /// <inheritdoc/>
    public int WrapAnew(KeyRing keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        if (
            SubjectKeyStore
                .Heads(disk, dataFolder)
                .All(head => head.IsWrapped && KeyRing.WrappedUnder(head.FileKey.Span) == keys.Current)
        )
            return 0;
        using var store = SubjectKeyStore.Open(disk, dataFolder, keys);
        store.WrapAnew(keys);
        return 1;
    }
}
