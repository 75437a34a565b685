using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Erasing;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Keeping.Index;
using PupilBridge.Worker.Projection;
using PupilBridge.Worker.Protection;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Worker.Offline;

/// <summary>
/// A data folder without a running service, opened for reading: the journal is read and not written (but for erasures that a restored one
/// lacks), the exam log is brought up to it and, where something is wrong with it, made anew. While it is open no service can start on the folder.
/// </summary>
/// <remarks>For one thread.</remarks>
public sealed class OfflineFolder : IDisposable
{
    private readonly BridgeParts parts;
    private readonly IDisposable folderLock;
    private readonly JournalEntries entries;
    private readonly EntryIndex index;
    private readonly KnownEntries known;
    private readonly ExamLogStore store;
    private readonly SubjectKeyStore? keys;

    private OfflineFolder(BridgeParts parts, IDisposable folderLock)
    {
        this.parts = parts;
        this.folderLock = folderLock;
        keys = SubjectKeyOpening.Existing(parts);
        entries = new JournalEntries(parts.Logger, keys);
        store = OpenOrRebuild();
        index = EntryIndex.Open(
            parts.Disk,
            parts.Options.DataFolder,
            new IndexSource(HashAt, () => throw new NotSupportedException("Only a service makes the entry index.")),
            parts.Logger,
            seal: new FileSeal(parts.Keys, parts.Encrypt)
        );
        known = new KnownEntries(index);
        known.Settle();
        Exams = new ExamTracker(Find);
    }

    /// <summary>The exams as the journal has them.</summary>
    public ExamTracker Exams { get; }

    /// <summary>The exam log.</summary>
    public ExamLogStore Log => store;

    /// <summary>Whether the journal holds a person's entry.</summary>
    /// <param name="id">The entry's id.</param>
    /// <returns>True if it does.</returns>
    /// <exception cref="IOException">The entry index cannot be read.</exception>
    public bool Knows(EntryId id) =>
        known.People.Find(id) is not null || (known.People.OnDisk.TryFind(id, out var place) && place is not null);

    /// <summary>Reads one entry of the journal.</summary>
    /// <param name="sequence">Its place.</param>
    /// <returns>Null where no entry stands.</returns>
    /// <exception cref="JournalFormatException">A newer version of the program wrote it.</exception>
    /// <exception cref="IOException">A file of the journal cannot be read.</exception>
    public SequencedEntry? ReadEntry(JournalSequence sequence)
    {
        using var reader = JournalReader.Settled(parts.Disk, Folder, sequence.Value);
        return entries.Find(reader, sequence);
    }

    /// <summary>The keys of what is sealed in the journal; null where nothing is.</summary>
    public SubjectKeyStore? SubjectKeys => keys;

    /// <summary>The journal's entries before a place, from the first.</summary>
    /// <param name="before">The place.</param>
    public IEnumerable<SequencedEntry> ReadEntriesBefore(JournalSequence before)
    {
        if (before.Value <= 1)
            yield break;
        using var reader = JournalReader.Settled(parts.Disk, Folder);
        foreach (var entry in entries.Of(reader.ReadAll()).TakeWhile(entry => entry.Sequence < before))
            yield return entry;
    }

    private JournalFolder Folder => parts.Journal;

    private ExamLogOptions LogOptions => parts.LogOptions;

    /// <summary>Opens a data folder that nobody else has open.</summary>
    /// <param name="parts">Only the data folder, the disk, the clock and the logger count.</param>
    /// <exception cref="JournalLockedException">A service, or another command, has it open.</exception>
    /// <exception cref="JournalFormatException">A newer version of the program wrote the journal.</exception>
    /// <exception cref="ExamLogBrokenException">The exam log cannot be used, and cannot be made anew either.</exception>
    public static OfflineFolder Open(BridgeParts parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        RepeatedErasures.Enter(parts);
        var opened = Lock(parts);
        try
        {
            opened.CatchUp();
            return opened;
        }
        catch
        {
            opened.Dispose();
            throw;
        }
    }

    /// <summary>Makes the exam log of a data folder anew from the journal, whatever is wrong with it; the old one is kept aside.</summary>
    /// <param name="parts">Only the data folder, the disk, the clock and the logger count.</param>
    /// <param name="reason">Why, for the note beside the old files.</param>
    /// <param name="stop">Gives up; the old exam log stays in use.</param>
    /// <returns>What was made, and where the old files lie.</returns>
    /// <exception cref="JournalLockedException">A service, or another command, has the data folder open.</exception>
    /// <exception cref="ExamLogBrokenException">It cannot be made.</exception>
    public static ExamLogRebuilt Rebuild(BridgeParts parts, string reason, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(parts);
        RepeatedErasures.Enter(parts);
        using (parts.Disk.Lock(parts.Journal))
        {
            using var keys = SubjectKeyOpening.Existing(parts);
            Duty(parts, keys).Settle(null);
            var built = Rebuild(parts, new JournalEntries(parts.Logger, keys), reason, stop);
            if (keys is not { LastErasure: > 0 })
                return built;
            // Once a patient was erased no older exam log is kept: it holds what was erased.
            ExamLogStore.DeleteMovedAside(parts.Options.DataFolder);
            return built with { OldFiles = null };
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        index.Dispose();
        store.Dispose();
        keys?.Dispose();
        folderLock.Dispose();
    }

    private static OfflineFolder Lock(BridgeParts parts)
    {
        var folderLock = parts.Disk.Lock(parts.Journal);
        try
        {
            return new OfflineFolder(parts, folderLock);
        }
        catch
        {
            folderLock.Dispose();
            throw;
        }
    }

    private static ExamLogRebuilt Rebuild(
        BridgeParts parts,
        JournalEntries entries,
        string reason,
        CancellationToken stop
    )
    {
        var folder = parts.Options.DataFolder;
        using var rebuilder = ExamLogRebuilder.Begin(folder, parts.LogOptions);
        using var reader = JournalReader.Settled(parts.Disk, parts.Journal);
        ExamLogKeeper.Fill(rebuilder.Store, entries.Of(reader.ReadAll()), stop);
        return rebuilder.Finish(reason);
    }

    private static ErasureDuty Duty(BridgeParts parts, SubjectKeyStore? keys) =>
        new(keys, parts.Disk, parts.Options.DataFolder, from => RecordsFrom(parts, from));

    private static IEnumerable<JournalRecord> RecordsFrom(BridgeParts parts, long from)
    {
        using var reader = JournalReader.Settled(parts.Disk, parts.Journal, from);
        foreach (var record in reader.ReadAll())
            yield return record;
    }

    private ExamLogStore OpenOrRebuild()
    {
        ExamLogStore? opened = null;
        try
        {
            opened = ExamLogStore.Open(parts.Options.DataFolder, LogOptions);
            var stands = new ExamLogStart(opened.LastApplied, ExamLogKeeper.BookOf(opened));
            if (!Duty(parts, keys).Settle(stands))
                return opened;
            opened.Dispose();
            Rebuild(parts, entries, "a patient was erased", CancellationToken.None);
            ExamLogStore.DeleteMovedAside(parts.Options.DataFolder);
            return ExamLogStore.Open(parts.Options.DataFolder, LogOptions);
        }
        catch (ExamLogBrokenException broken)
        {
            opened?.Dispose();
            Duty(parts, keys).Settle(null);
            Rebuild(parts, entries, broken.Message, CancellationToken.None);
            return ExamLogStore.Open(parts.Options.DataFolder, LogOptions);
        }
    }

    private ChainHash? HashAt(long sequence) => JournalReader.Find(parts.Disk, Folder, sequence, long.MaxValue)?.Hash;

    /// <summary>Reads what exam log and entry index lack of the journal.</summary>
    private void CatchUp()
    {
        var from = store.LastApplied;
        Exams.Begin(new ExamLogStart(from, ExamLogKeeper.BookOf(store)));
        using var reader = JournalReader.Settled(parts.Disk, Folder, Math.Min(from, index.Sequence) + 1);
        foreach (var entry in entries.Of(reader.ReadAll()))
        {
            if (entry.Sequence.Value > index.Sequence)
            {
                known.Add(entry);
            }

            if (entry.Sequence.Value > from)
            {
                Exams.Apply(entry);
            }
        }

        if (Exams.Unwritten.UpTo > from)
        {
            ExamLogKeeper.Write(store, Exams);
        }
    }

    private Exam? Find(ExamId id) => ExamLogKeeper.FindIn(store, id);
}
