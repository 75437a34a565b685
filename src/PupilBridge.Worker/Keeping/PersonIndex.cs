using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Keeping.Index;

namespace PupilBridge.Worker.Keeping;

/// <summary>
/// Which entries of people the journal holds or is about to hold, by their ids, for ever: the latest in memory, all others on disk.
/// Not safe for several threads: the keeper guards it.
/// </summary>
internal sealed class PersonIndex
{
    private readonly Dictionary<EntryId, JournalSequence> recorded = [];
    private readonly Queue<RecordedId> order = [];
    private readonly Dictionary<EntryId, Task<JournalSequence>> waiting = [];

    /// <summary>The ids on disk. They are looked at without the guard, since that may take a disk's time.</summary>
    public RecordedIds OnDisk { get; private set; } = RecordedIds.None;

    /// <summary>How many ids are in memory.</summary>
    public int InMemory => recorded.Count;

    /// <summary>Where an entry is, or what will tell once it is on disk, as far as that is known in memory.</summary>
    /// <param name="id">The entry's id.</param>
    /// <returns>Null for an entry that may only be among those on disk.</returns>
    public Task<JournalSequence>? Find(EntryId id) =>
        recorded.TryGetValue(id, out var place) ? Task.FromResult(place) : waiting.GetValueOrDefault(id);

    /// <summary>An entry was given to the journal.</summary>
    public void Begin(EntryId id, Task<JournalSequence> outcome) => waiting[id] = outcome;

    /// <summary>An entry is on disk; of two with one id, the first stands.</summary>
    public void Recorded(EntryId id, JournalSequence place)
    {
        waiting.Remove(id);
        if (recorded.TryAdd(id, place))
            order.Enqueue(new RecordedId(id, place));
    }

    /// <summary>An entry was not recorded, and can be given again.</summary>
    public void Forget(EntryId id) => waiting.Remove(id);

    /// <summary>All ids up to a place of the journal are on disk now.</summary>
    public void Settle(RecordedIds onDisk, long upTo)
    {
        OnDisk = onDisk;
        while (order.TryPeek(out var oldest) && oldest.Place.Value <= upTo)
            recorded.Remove(order.Dequeue().Id);
    }
}
