using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Keeping;

/// <summary>
/// Which entries of people the journal holds or is about to hold, by their ids, for ever. Rebuilt from the journal at the
/// start. Not safe for several threads: the keeper guards it.
/// </summary>
internal sealed class PersonIndex
{
    private readonly Dictionary<EntryId, JournalSequence> recorded = [];
    private readonly Dictionary<EntryId, Task<JournalSequence>> waiting = [];

    /// <summary>Where an entry is, or what will tell once it is on disk.</summary>
    /// <param name="id">The entry's id.</param>
    /// <returns>Null for an entry that is not known.</returns>
    public Task<JournalSequence>? Find(EntryId id) =>
        recorded.TryGetValue(id, out var place) ? Task.FromResult(place) : waiting.GetValueOrDefault(id);

    /// <summary>An entry was given to the journal.</summary>
    public void Begin(EntryId id, Task<JournalSequence> outcome) => waiting[id] = outcome;

    /// <summary>An entry is on disk; of two with one id, the first stands.</summary>
    public void Recorded(EntryId id, JournalSequence place)
    {
        waiting.Remove(id);
        recorded.TryAdd(id, place);
    }

    /// <summary>An entry was not recorded, and can be given again.</summary>
    public void Forget(EntryId id) => waiting.Remove(id);
}
