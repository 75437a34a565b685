using PupilBridge.Exams.Entries;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>Writes runs of entry ids.</summary>
internal static class EntryRunWriter
{
    private const int PagesAtOnce = 256;

    /// <summary>Writes a run and makes it durable. The folder is not synced: a run counts only once a manifest names it.</summary>
    /// <param name="disk">Where.</param>
    /// <param name="path">The file; it must not exist.</param>
    /// <param name="count">How many ids there are, at least 1.</param>
    /// <param name="ids">The ids, in order.</param>
    /// <exception cref="IOException">It could not be written.</exception>
    public static void Write(IJournalDisk disk, string path, long count, IEnumerable<RecordedId> ids)
    {
        using var file = disk.Open(path, JournalFileMode.CreateNew);
        var stride = RunFences.StrideOf(count);
        var buffer = new byte[PagesAtOnce * RunPage.ByteCount];
        var firsts = new List<EntryId>();
        var (page, filled, written) = (0L, 0, 0L);
        foreach (var places in ids.Chunk(RunPage.Places))
        {
            var bytes = buffer.AsSpan(filled * RunPage.ByteCount, RunPage.ByteCount);
            for (var place = 0; place < places.Length; place++)
                RunPage.Set(bytes, place, places[place]);
            RunPage.Seal(bytes, places.Length);
            if (page++ % stride == 0)
                firsts.Add(places[0].Id);
            if (++filled < PagesAtOnce)
                continue;
            file.Write(buffer, written);
            written += buffer.Length;
            filled = 0;
        }

        file.Write(buffer.AsSpan(0, filled * RunPage.ByteCount), written);
        file.Write(RunFences.Encode(count, firsts), page * RunPage.ByteCount);
        file.Sync();
    }

    /// <summary>The ids of several runs, in one order.</summary>
    /// <exception cref="IndexDamagedException">A page of one of them is not as it was written.</exception>
    public static IEnumerable<RecordedId> Merged(IReadOnlyList<EntryRun> runs)
    {
        var heads = new PriorityQueue<IEnumerator<RecordedId>, RecordedId>();
        foreach (var run in runs)
            Next(run.All().GetEnumerator());
        while (heads.TryDequeue(out var smallest, out var id))
        {
            yield return id;
            Next(smallest);
        }

        void Next(IEnumerator<RecordedId> run)
        {
            if (run.MoveNext())
                heads.Enqueue(run, run.Current);
            else
                run.Dispose();
        }
    }
}
