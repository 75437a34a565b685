using PupilBridge.Keys;

namespace PupilBridge.Journal;

/// <summary>The journal among those whose keys a change of the master key wraps anew; the caller holds the folder's lock.</summary>
public sealed class JournalKeyHolder(IJournalDisk disk, JournalFolder folder) : IKeyHolder
{
    /// <inheritdoc/>
    public string Name => "journal";

    /// <inheritdoc/>
    public IReadOnlyDictionary<MasterKeyId, int> Uses() => JournalKeys.Uses(disk, folder);

    /// <inheritdoc/>
    public int WrapAnew(KeyRing keys) => JournalKeys.WrapAnew(disk, folder with { Keys = keys });
}
