using PupilBridge.Exams.Entries;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>Writes runs and manifests. For one thread at a time.</summary>
internal sealed class IndexWriter : IDisposable
{
    private readonly IJournalDisk disk;
    private readonly IndexFolder folder;
    private readonly IndexSource source;
    private readonly int smallest;
    private readonly List<EntryRun> replaced = [];
    private readonly CancellationTokenSource stop = new();
    private volatile bool needsRemaking;

    private IndexWriter(
        IJournalDisk disk,
        IndexFolder folder,
        IndexSource source,
        int smallest,
        IReadOnlyList<EntryRun> runs
    ) => (this.disk, this.folder, this.source, this.smallest, Runs) = (disk, folder, source, smallest, runs);

    /// <summary>The runs that the last manifest names.</summary>
    public IReadOnlyList<EntryRun> Runs { get; private set; }

    /// <summary>Whether the runs cannot be relied on.</summary>
    public bool NeedsRemaking => needsRemaking;

    /// <summary>Opens the runs that a manifest names.</summary>
    /// <returns>Null where one of them is missing or damaged.</returns>
    public static IndexWriter? TryOpen(
        IJournalDisk disk,
        IndexFolder folder,
        IndexManifest manifest,
        IndexSource source,
        int smallest
    )
    {
        var runs = new List<EntryRun>();
        try
        {
            foreach (var (number, count) in manifest.Runs)
                runs.Add(EntryRun.Open(disk, folder.RunPath(number), number, count));
            return new IndexWriter(disk, folder, source, smallest, runs);
        }
        catch (IOException)
        {
            runs.ForEach(run => run.Dispose());
            return null;
        }
    }

    public void NeedRemaking() => needsRemaking = true;

    /// <summary>Adds ids and makes them durable with the manifest. Ids that are on disk already do no harm.</summary>
    /// <param name="ids">The ids that came since the last time.</param>
    /// <param name="manifest">Where the journal stands with them; the runs are put in here.</param>
    /// <exception cref="IOException">It failed; what was on disk before still stands.</exception>
    /// <exception cref="OperationCanceledException">It was stopped; the same holds.</exception>
    public void Write(List<RecordedId> ids, IndexManifest manifest)
    {
        var made = new List<EntryRun>();
        var remakes = needsRemaking;
        try
        {
            folder.Prepare();
            var runs = remakes ? Remake(manifest.Position.Sequence, made) : With(Runs, ids, made);
            folder.Save(manifest with { Runs = [.. runs.Select(run => (run.Number, run.Count))] });
            replaced.AddRange(Runs.Concat(made).Except(runs));
            Runs = runs;
            needsRemaking &= !remakes;
        }
        catch (Exception e)
        {
            made.ForEach(run => run.Dispose());
            needsRemaking |= e is IndexDamagedException;
            throw;
        }
    }

    /// <summary>Closes the runs that others have taken the place of.</summary>
    public void DropReplaced()
    {
        replaced.ForEach(run => run.Dispose());
        replaced.Clear();
    }

    /// <summary>Lets what is being written come to nothing.</summary>
    public void Stop() => stop.Cancel();

    public void Dispose()
    {
        stop.Dispose();
        DropReplaced();
        foreach (var run in Runs)
            run.Dispose();
    }

    private IReadOnlyList<EntryRun> With(IReadOnlyList<EntryRun> runs, List<RecordedId> ids, List<EntryRun> made)
    {
        if (ids.Count > 0)
            runs = [.. runs, Make(ids.Count, ids.Order(), made)];
        while (new RecordedIds(runs).ToMerge(smallest) is { } small)
            runs = [Make(small.Sum(run => run.Count), EntryRunWriter.Merged(small), made), .. runs.Except(small)];
        return runs;
    }

    /// <summary>Reads all ids up to a place from the journal.</summary>
    private IReadOnlyList<EntryRun> Remake(long upTo, List<EntryRun> made)
    {
        IReadOnlyList<EntryRun> runs = [];
        var people = source
            .Entries()
            .TakeWhile(entry => entry.Sequence.Value <= upTo)
            .Where(entry => entry.Entry is PersonEntry)
            .Select(entry => new RecordedId(((PersonEntry)entry.Entry).Id, entry.Sequence));
        foreach (var some in people.Chunk(smallest))
            runs = With(runs, [.. some], made);
        return runs;
    }

    private EntryRun Make(long count, IEnumerable<RecordedId> ids, List<EntryRun> made)
    {
        var number = folder.NextNumber();
        EntryRunWriter.Write(disk, folder.RunPath(number), count, ids.Select(GoOn));
        var run = EntryRun.Open(disk, folder.RunPath(number), number, count);
        made.Add(run);
        return run;
    }

    private RecordedId GoOn(RecordedId id)
    {
        stop.Token.ThrowIfCancellationRequested();
        return id;
    }
}
