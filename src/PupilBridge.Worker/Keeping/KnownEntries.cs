using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Keeping;

/// <summary>What is known of the journal's content, gathered in one pass over it at the start.</summary>
internal sealed class KnownEntries
{
    public EventIndex Events { get; } = new();

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
}
