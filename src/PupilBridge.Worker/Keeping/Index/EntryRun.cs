using PupilBridge.Exams.Entries;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>
/// A file of entry ids in their order, never changed once it is made. An id is found by a few pages read from the disk, each compared
/// with its checksum, so that what is said of an id is exact however many there are. Safe for several threads.
/// </summary>
internal sealed class EntryRun : IDisposable
{
    private readonly Lock gate = new();
    private readonly IJournalFile file;
    private readonly RunFences fences;
    private readonly byte[] page = new byte[RunPage.ByteCount];
    private bool isRetired;

    private EntryRun(long number, string path, IJournalFile file, RunFences fences) =>
        (Number, Path, this.file, this.fences) = (number, path, file, fences);

    public long Number { get; }

    public string Path { get; }

    public long Count => fences.Count;

    /// <summary>Opens a run.</summary>
    /// <exception cref="IndexDamagedException">It is not the run that was written.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static EntryRun Open(IJournalDisk disk, string path, long number, long count)
    {
        var file = disk.Open(path, JournalFileMode.Read);
        try
        {
            var bytes = new byte[RunFences.BytesOf(count)];
            var at = RunFences.PagesOf(count) * RunPage.ByteCount;
            return
                file.Length == at + bytes.Length
                && file.Read(bytes, at) == bytes.Length
                && RunFences.TryDecode(bytes, count) is { } fences
                ? new EntryRun(number, path, file, fences)
                : throw new IndexDamagedException($"{path} is not as it was written.");
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <summary>Looks for an id.</summary>
    /// <param name="id">The id.</param>
    /// <param name="place">Its place in the journal, if it is here.</param>
    /// <returns>False if this run was replaced by another meanwhile; nothing is known then.</returns>
    /// <exception cref="IndexDamagedException">A page is not as it was written.</exception>
    public bool TryFind(EntryId id, out JournalSequence? place)
    {
        place = null;
        lock (gate)
        {
            if (isRetired)
                return false;
            var (from, to) = fences.PagesFor(id);
            while (from < to)
            {
                var middle = (from + to) / 2;
                Read(middle, page);
                var count = RunPage.CountIn(page);
                if (id.Value < RunPage.At(page, 0).Id.Value)
                    to = middle;
                else if (id.Value > RunPage.At(page, count - 1).Id.Value)
                    from = middle + 1;
                else
                {
                    place = Within(page, count, id);
                    return true;
                }
            }

            return true;
        }
    }

    /// <summary>All ids, in order.</summary>
    /// <exception cref="IndexDamagedException">A page is not as it was written.</exception>
    public IEnumerable<RecordedId> All()
    {
        var own = new byte[RunPage.ByteCount];
        for (var at = 0L; at < fences.Pages; at++)
        {
            Read(at, own);
            for (var place = 0; place < RunPage.CountIn(own); place++)
                yield return RunPage.At(own, place);
        }
    }

    public void Dispose()
    {
        lock (gate)
        {
            isRetired = true;
            file.Dispose();
        }
    }

    private void Read(long number, byte[] into)
    {
        if (file.Read(into, number * RunPage.ByteCount) != into.Length || !RunPage.IsSound(into))
            throw new IndexDamagedException($"Page {number} of {Path} is not as it was written.");
    }

    private static JournalSequence? Within(ReadOnlySpan<byte> page, int count, EntryId id)
    {
        var (from, to) = (0, count);
        while (from < to)
        {
            var middle = (from + to) / 2;
            if (RunPage.At(page, middle).Id.Value < id.Value)
                from = middle + 1;
            else
                to = middle;
        }

        return from < count && RunPage.At(page, from) is var found && found.Id == id ? found.Place : null;
    }
}
