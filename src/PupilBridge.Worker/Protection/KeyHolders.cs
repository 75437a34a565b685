using PupilBridge.ExamLog;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Worker.Keeping.Index;
using PupilBridge.Worker.Projection.Resuming;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Protection;

/// <summary>
/// Everything in a data folder that keeps keys wrapped under the master key. What is not in this list loses its keys when the master key
/// is changed; so whoever wraps a key adds itself here.
/// </summary>
public static class KeyHolders
{
    /// <summary>The holders of a data folder.</summary>
    /// <param name="disk">The disk of the journal.</param>
    /// <param name="dataFolder">The data folder, whose lock whoever changes keys holds.</param>
    public static IReadOnlyList<IKeyHolder> Of(IJournalDisk disk, string dataFolder) =>
        [
            new JournalKeyHolder(disk, new JournalFolder(dataFolder)),
            new ExamLogKeys(dataFolder),
            new SubjectKeyHolder(disk, dataFolder),
            IndexFolder.KeysOf(disk, dataFolder),
            ResumeFolder.KeysOf(disk, dataFolder),
            new JournalKeyHolder(disk, AuditFolder.Of(new JournalFolder(dataFolder)), "audit trail"),
        ];
}
