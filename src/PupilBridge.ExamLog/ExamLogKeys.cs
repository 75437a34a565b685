using PupilBridge.Keys;

namespace PupilBridge.ExamLog;

/// <summary>The key of a data folder's exam log, for who changes the master key; the caller holds the folder's lock.</summary>
public sealed class ExamLogKeys : IKeyHolder
{
    private readonly ExamLogFolder folder;

    /// <summary>The exam log in use of a data folder.</summary>
    public ExamLogKeys(string dataFolder) => folder = ExamLogFolder.InUse(dataFolder);

    /// <inheritdoc/>
    public string Name => "exam log";

    /// <inheritdoc/>
    public IReadOnlyDictionary<MasterKeyId, int> Uses() =>
        ExamLogKey.IsThere(folder)
            ? new Dictionary<MasterKeyId, int> { [ExamLogKey.WrappedUnder(folder)] = 1 }
            : new Dictionary<MasterKeyId, int>();

    /// <inheritdoc/>
    public int WrapAnew(KeyRing keys) => ExamLogKey.IsThere(folder) && ExamLogKey.WrapAnew(folder, keys) ? 1 : 0;
}
