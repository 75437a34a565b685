using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>The ids of all entries of people up to some place of the journal, on disk. A value: it never changes.</summary>
/// <param name="Runs">The runs that hold them.</param>
internal sealed record RecordedIds(IReadOnlyList<EntryRun> Runs)
{
    /// <summary>How many runs of like size are made one.</summary>
    internal const int MergedAtOnce = 8;

    public static RecordedIds None { get; } = new([]);

    /// <summary>Looks for an id, the latest runs first.</summary>
    /// <param name="id">The id.</param>
    /// <param name="place">Its place in the journal; null if it is not here.</param>
    /// <returns>False if a run was replaced meanwhile; look again in what took its place.</returns>
    /// <exception cref="IndexDamagedException">A file is not as it was written.</exception>
    public bool TryFind(EntryId id, out JournalSequence? place)
    {
        place = null;
        for (var i = Runs.Count - 1; i >= 0 && place is null; i--)
        {
            if (!Runs[i].TryFind(id, out place))
                return false;
        }

        return true;
    }

    /// <summary>
    /// The runs that should be made one: eight of like size, so that there are never many, and each id is written again only as often
    /// as the number of ids has grown eightfold.
    /// </summary>
    /// <param name="smallest">How many ids a run has that was written alone.</param>
    /// <returns>Null if none should.</returns>
    public IReadOnlyList<EntryRun>? ToMerge(int smallest) =>
        Runs.GroupBy(run => Math.Max(0, (int)Math.Log(Math.Max(1, run.Count / (double)smallest), MergedAtOnce)))
            .OrderBy(tier => tier.Key)
            .FirstOrDefault(tier => tier.Count() >= MergedAtOnce)
            ?.ToList();
}
