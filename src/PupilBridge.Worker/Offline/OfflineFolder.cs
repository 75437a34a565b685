using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Keeping.Index;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Worker.Offline;

/// <summary>
/// A data folder without a running service, opened for reading: the journal is read and not written, the exam log is brought up to it
/// and, where something is wrong with it, made anew. While it is open no service can start on the folder.
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

    private OfflineFolder(BridgeParts parts, IDisposable folderLock)
    {
        this.parts = parts;
        this.folderLock = folderLock;
        entries = new JournalEntries(parts.Logger);
        store = OpenOrRebuild();
        index = EntryIndex.Open(
            parts.Disk,
            parts.Options.DataFolder,
            new IndexSource(HashAt, () => throw new NotSupportedException("Only a service makes the entry index.")),
            parts.Logger
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
        using (parts.Disk.Lock(parts.Journal))
        {
            return Rebuild(parts, new JournalEntries(parts.Logger), reason, stop);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        index.Dispose();
        store.Dispose();
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
        ExamLogKeeper.Fill(rebuilder.Store, entries.Of(reader), stop);
        return rebuilder.Finish(reason);
    }

    private ExamLogStore OpenOrRebuild()
    {
        ExamLogStore? opened = null;
        try
        {
            opened = ExamLogStore.Open(parts.Options.DataFolder, LogOptions);
            ExamLogKeeper.BookOf(opened);
            return opened;
        }
        catch (ExamLogBrokenException broken)
        {
            opened?.Dispose();
            Rebuild(parts, entries, broken.Message, CancellationToken.None);
            return ExamLogStore.Open(parts.Options.DataFolder, LogOptions);
        }
    }

    private ChainHash? HashAt(long sequence) => JournalReader.Find(parts.Disk, Folder, sequence, long.MaxValue)?.Hash;

    /// <summary>Reads what exam log and entry index lack of the journal.</summary>
    private void CatchUp()
    {
        var from = store.LastApplied;
        Exams.Begin(from, ExamLogKeeper.BookOf(store));
        using var reader = JournalReader.Settled(parts.Disk, Folder, Math.Min(from, index.Sequence) + 1);
        foreach (var entry in entries.Of(reader))
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
