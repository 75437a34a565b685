using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Keeping.Index;

namespace PupilBridge.Worker.Keeping;

/// <summary>What is known of the journal's content: taken from the entry index, and from the entries behind it.</summary>
/// <param name="index">The entry index; null where all is held in memory.</param>
internal sealed class KnownEntries(EntryIndex? index = null)
{
    private SettledIds? settled;

    public EventIndex Events { get; } = index?.CopyEvents() ?? new EventIndex();

    public PersonIndex People { get; } = new();

    /// <summary>Takes one entry that is on disk.</summary>
    /// <param name="entry">The entry with its place.</param>
    public void Add(SequencedEntry entry)
    {
        Events.Take(entry.Entry);
        Events.SetDurable(entry.Entry);
        if (entry.Entry is PersonEntry person)
            People.Recorded(person.Id, entry.Sequence);
    }

    /// <summary>Lets go of what the entry index has on disk by now.</summary>
    public void Settle()
    {
        if (index?.Settled is not { } now || ReferenceEquals(now, settled))
            return;
        settled = now;
        People.Settle(now.Ids, now.UpTo);
    }

    /// <summary>Makes the ids on disk anew from the journal.</summary>
    /// <exception cref="IOException">That failed; the message says what to do.</exception>
    public Task MendAsync() => index?.MendAsync() ?? Task.CompletedTask;
}
