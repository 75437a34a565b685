using PupilBridge.ExamLog;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Offline;

/// <summary>
/// Whether the exam log holds what the journal says: the journal is applied once more to an empty exam log, and both are compared by
/// the digest of their content.
/// </summary>
/// <param name="UpTo">The journal entry up to which they are compared: the last one that the exam log holds.</param>
/// <param name="JournalEnd">The journal's last entry; what lies between is applied at the next start.</param>
/// <param name="InExamLog">What the exam log holds; null if it cannot be read.</param>
/// <param name="FromJournal">What it must hold; null if the exam log cannot be read.</param>
/// <param name="Trouble">Why the exam log cannot be read, for a person; null if it can.</param>
public sealed record ProjectionCheck(
    long UpTo,
    long JournalEnd,
    ContentDigest? InExamLog,
    ContentDigest? FromJournal,
    string? Trouble
)
{
    private const string CheckFolder = "examlog-check";

    /// <summary>Whether the exam log holds exactly what the journal says.</summary>
    public bool IsSame => Trouble is null && InExamLog == FromJournal;

    /// <summary>Checks a data folder that no service has open. Nothing in it is changed.</summary>
    /// <param name="parts">Only the data folder, the disk, the clock and the logger count.</param>
    /// <param name="stop">Gives up.</param>
    /// <exception cref="JournalLockedException">A service, or another command, has it open.</exception>
    public static ProjectionCheck Offline(BridgeParts parts, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var folder = parts.Journal;
        using (parts.Disk.Lock(folder))
        {
            using var keys = SubjectKeyOpening.Existing(parts);
            return Run(parts, keys, () => ReadLog(parts), () => JournalReader.Settled(parts.Disk, folder), stop);
        }
    }

    /// <summary>Checks beside a running service, in its process, up to what its exam log holds at the moment.</summary>
    /// <param name="bridge">The running bridge.</param>
    /// <param name="parts">What it is made of.</param>
    /// <param name="stop">Gives up.</param>
    public static ProjectionCheck Beside(Bridge bridge, BridgeParts parts, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(bridge);
        ArgumentNullException.ThrowIfNull(parts);
        var durable = bridge.Keeper.Durable.Sequence;
        var folder = parts.Journal;
        return Run(
            parts,
            bridge.SubjectKeys,
            () => bridge.ExamLog.Read(log => log.Check()),
            () => JournalReader.Live(parts.Disk, folder, 1, () => durable),
            stop
        );
    }

    private static ExamLogCheck ReadLog(BridgeParts parts)
    {
        using var log = ExamLogStore.Open(parts.Options.DataFolder, parts.LogOptions);
        return log.Check();
    }

    private static ProjectionCheck Run(
        BridgeParts parts,
        SubjectKeyStore? keys,
        Func<ExamLogCheck> readLog,
        Func<JournalReader> journal,
        CancellationToken stop
    )
    {
        ExamLogCheck inLog;
        try
        {
            inLog = readLog();
        }
        catch (ExamLogBrokenException broken)
        {
            return new ProjectionCheck(0, 0, null, null, broken.Message);
        }

        var (fromJournal, end, erased) = FromTheJournal(parts, keys, journal, inLog.LastApplied, stop);
        return erased is { } sequence
            ? new ProjectionCheck(inLog.LastApplied, end, null, null, ToBeMadeAnew(sequence))
            : new ProjectionCheck(inLog.LastApplied, end, inLog.Content, fromJournal, null);
    }

    private static string ToBeMadeAnew(long sequence) =>
        $"A patient was erased by entry {sequence}, and the exam log has not been made anew since. Start the service, which makes it anew, or "
        + "run 'pupilbridge journal rebuild'.";

    private static (ContentDigest Content, long End, long? Erased) FromTheJournal(
        BridgeParts parts,
        SubjectKeyStore? keys,
        Func<JournalReader> journal,
        long upTo,
        CancellationToken stop
    )
    {
        var end = 0L;
        long? erased = null;
        IEnumerable<SequencedEntry> UpTo(IEnumerable<SequencedEntry> all)
        {
            foreach (var entry in all)
            {
                end = entry.Sequence.Value;
                if (end <= upTo)
                {
                    yield return entry;
                }
                else if (entry.Entry is PatientErased)
                {
                    erased = end;
                }
            }
        }

        // On the data folder's own disk: a temporary folder of the system may be memory, and too small.
        var beside = Directory.CreateDirectory(Path.Combine(parts.Options.DataFolder, CheckFolder)).FullName;
        try
        {
            ExamLogStore.MoveAside(beside, "left over", parts.Time);
            using var store = ExamLogStore.Open(beside, parts.LogOptions);
            using var reader = journal();
            ExamLogKeeper.Fill(store, UpTo(new JournalEntries(parts.Logger, keys).Of(reader.ReadAll())), stop);
            return (store.Verify(), end, erased);
        }
        finally
        {
            Directory.Delete(beside, recursive: true);
        }
    }
}
