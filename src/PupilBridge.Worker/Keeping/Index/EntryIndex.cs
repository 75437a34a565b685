using Microsoft.Extensions.Logging;
using PupilBridge.Exams.Entries;
using PupilBridge.Journal;
using PupilBridge.Worker.Protection;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>
/// The entry index: which entries and events the journal holds, kept on disk beside it, so that neither a start nor the memory grows
/// with the journal. It follows the journal like any projection, writes what gathered from time to time and at the end, and is thrown away
/// and made anew where it does not fit the journal. What of it is on disk is exact; nothing is ever decided by a guess.
/// </summary>
/// <remarks>One thread gives entries in the journal's order; writing runs beside it.</remarks>
internal sealed partial class EntryIndex : IDisposable
{
    private readonly Lock gate = new();
    private readonly IndexWriter writer;
    private readonly EntryIndexOptions options;
    private readonly ILogger logger;
    private readonly EventIndex events;
    private List<RecordedId> gathered = [];
    private JournalPosition position;
    private long writeAt;
    private long notBefore;
    private Task writing = Task.CompletedTask;
    private volatile SettledIds settled;
    private bool isDisposed;

    private EntryIndex(IndexWriter writer, IndexManifest manifest, EntryIndexOptions options, ILogger logger)
    {
        (this.writer, this.options, this.logger) = (writer, options, logger);
        position = manifest.Position;
        writeAt = position.Sequence + options.EntriesAtOnce;
        events = manifest.Events.IsEmpty ? new EventIndex() : EventIndex.Read(ReaderOf(manifest.Events));
        settled = new SettledIds(new RecordedIds(writer.Runs), position.Sequence);
    }

    /// <summary>The last entry of the journal that is in it; 0 for none.</summary>
    public long Sequence => position.Sequence;

    /// <summary>What is on disk.</summary>
    public SettledIds Settled => settled;

    /// <summary>Takes up what lies on disk, if it fits the journal; else begins before the first entry.</summary>
    /// <param name="disk">Where it lies.</param>
    /// <param name="dataFolder">The data folder, whose lock the caller holds.</param>
    /// <param name="source">The journal.</param>
    /// <param name="logger">Where the service tells what it does.</param>
    /// <param name="options">How much is gathered; null for the defaults.</param>
    /// <param name="seal">How it is encrypted; null for not at all.</param>
    public static EntryIndex Open(
        IJournalDisk disk,
        string dataFolder,
        IndexSource source,
        ILogger logger,
        EntryIndexOptions? options = null,
        FileSeal? seal = null
    )
    {
        var folder = new IndexFolder(disk, dataFolder, seal);
        var chosen = options ?? new EntryIndexOptions();
        foreach (var manifest in folder.Load().Where(manifest => Fits(manifest, source)))
        {
            if (IndexWriter.TryOpen(disk, folder, manifest, source, chosen.IdsAtOnce) is { } whole)
                return new EntryIndex(whole, manifest, chosen, logger);
        }

        var empty = IndexWriter.TryOpen(disk, folder, IndexManifest.Empty, source, chosen.IdsAtOnce)!;
        return new EntryIndex(empty, IndexManifest.Empty, chosen, logger);
    }

    /// <summary>A copy of what is known of the instruments' events.</summary>
    public EventIndex CopyEvents()
    {
        lock (gate)
            return EventIndex.Read(ReaderOf(BytesOf(events)));
    }

    /// <summary>Takes the next record of the journal; those that are in it already are passed over.</summary>
    /// <param name="record">The record.</param>
    /// <param name="entry">The entry in it; null for none.</param>
    public void Take(JournalRecord record, JournalEntry? entry)
    {
        lock (gate)
        {
            if (record.Sequence <= position.Sequence)
                return;
            if (entry is not null)
            {
                events.Take(entry);
                events.SetDurable(entry);
                if (entry is PersonEntry person)
                    gathered.Add(new RecordedId(person.Id, new JournalSequence(record.Sequence)));
            }

            position = new JournalPosition(record.Sequence, record.Hash);
            var isEnough = position.Sequence >= writeAt || gathered.Count >= options.IdsAtOnce;
            if (isEnough && position.Sequence >= notBefore)
                BeginWriting_NeedsGate();
        }

        // A first pass over a long journal gathers faster than a slow disk takes it.
        if (gathered.Count >= 8 * options.IdsAtOnce)
            writing.Wait();
    }

    /// <summary>Writes what is left, so that the next start need not read it from the journal.</summary>
    /// <returns>When that is done, or has failed; the next start reads then what is missing.</returns>
    public async Task CloseAsync()
    {
        await writing.ConfigureAwait(false);
        lock (gate)
            BeginWriting_NeedsGate();
        await writing.ConfigureAwait(false);
    }

    /// <summary>Makes the ids on disk anew from the journal, because a file is not as it was written.</summary>
    /// <exception cref="IOException">That failed.</exception>
    public async Task MendAsync()
    {
        writer.NeedRemaking();
        await writing.ConfigureAwait(false);
        lock (gate)
            BeginWriting_NeedsGate();
        await writing.ConfigureAwait(false);
        if (writer.NeedsRemaking)
            throw new IOException(
                "Whether this entry was recorded before cannot be told at present: the entry index cannot be made anew. Nothing was "
                    + "recorded now. See the service's log, mend the disk, and send the entry again."
            );
    }

    /// <summary>Ends whatever is being written: nobody may write here once the folder's lock is given up.</summary>
    public void Dispose()
    {
        if (isDisposed)
            return;
        isDisposed = true;
        writer.Stop();
        writing.Wait();
        writer.Dispose();
    }

    private void BeginWriting_NeedsGate()
    {
        if (!writing.IsCompleted || (position.Sequence == settled.UpTo && !writer.NeedsRemaking))
            return;
        var ids = gathered;
        gathered = [];
        writeAt = position.Sequence + options.EntriesAtOnce;
        var manifest = new IndexManifest(position, [], BytesOf(events));
        writing = Task.Run(() => Write(ids, manifest));
    }

    private void Write(List<RecordedId> ids, IndexManifest manifest)
    {
        try
        {
            writer.Write(ids, manifest);
            settled = new SettledIds(new RecordedIds(writer.Runs), manifest.Position.Sequence);
            writer.DropReplaced();
        }
        catch (OperationCanceledException)
        {
            // The service stops, and the next start reads what is missing.
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JournalException)
        {
            CannotWrite(logger, manifest.Position.Sequence, e.Message);
            lock (gate)
            {
                gathered.InsertRange(0, ids);
                notBefore = position.Sequence + (options.IdsAtOnce / 16);
            }
        }
    }

    private static bool Fits(IndexManifest manifest, IndexSource source)
    {
        try
        {
            return source.HashAt(manifest.Position.Sequence) == manifest.Position.Hash;
        }
        catch (IOException)
        {
            return false;
        }
    }

    private static byte[] BytesOf(EventIndex events)
    {
        var stream = new MemoryStream();
        events.Write(new BinaryWriter(stream));
        return stream.ToArray();
    }

    private static BinaryReader ReaderOf(ReadOnlyMemory<byte> bytes) => new(new MemoryStream(bytes.ToArray()));

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "The entry index could not be written up to entry {Sequence}: {Message} It is tried again; recording goes on."
    )]
    private static partial void CannotWrite(ILogger logger, long sequence, string message);
}
