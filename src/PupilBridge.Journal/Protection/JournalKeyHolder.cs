using PupilBridge.Keys;

namespace PupilBridge.Journal;

/// <summary>A journal among those whose keys a change of the master key wraps anew; the caller holds the folder's lock.</summary>
/// <param name="disk">The disk.</param>
/// <param name="folder">The journal.</param>
/// <param name="name">What it is, for a person.</param>
public sealed class JournalKeyHolder(IJournalDisk disk, JournalFolder folder, string name = "journal") : IKeyHolder
{
    /// <inheritdoc/>
    public string Name => name;

    /// <inheritdoc/>
    public IReadOnlyDictionary<MasterKeyId, int> Uses() => JournalKeys.Uses(disk, folder);

    /// <inheritdoc/>
    public int WrapAnew(KeyRing keys) => JournalKeys.WrapAnew(disk, folder with { Keys = keys });
}
