using PupilBridge.Clinic.Entries;

namespace PupilBridge.Voyage.Model;

/// <summary>
/// What people were told, kept apart from the product: which entry is recorded where, which was refused, what they saw when they
/// signed. What nobody was told of may be in the journal, or not.
/// </summary>
internal sealed class ToldPeople
{
    private readonly Dictionary<string, (DeskEntry Entry, long Sequence)> recorded = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DeskEntry> refused = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> signing = new(StringComparer.Ordinal);
    private readonly List<string> problems = [];

    /// <summary>What was told to be recorded: the entry as it was given, and the place that was named.</summary>
    public IReadOnlyDictionary<string, (DeskEntry Entry, long Sequence)> Recorded => recorded;

    /// <summary>What was refused for good.</summary>
    public IReadOnlyDictionary<string, DeskEntry> Refused => refused;

    /// <summary>Answers that contradict each other.</summary>
    public IReadOnlyList<string> Problems => problems;

    /// <summary>How many answers said that the entry had been recorded before.</summary>
    public int Repeats { get; private set; }

    /// <summary>The record that a person saw when they signed.</summary>
    public string? SeenBy(string signature) => signing.GetValueOrDefault(signature);

    /// <summary>A person saw a record and is about to sign it.</summary>
    public void Saw(DeskEntry signature, string record) => signing[signature.EntryId] = record;

    /// <summary>A person was answered.</summary>
    public void Answer(DeskEntry entry, EntryOutcome outcome)
    {
        switch (outcome)
        {
            case EntryOutcome.Recorded done:
                Note(entry, done.Sequence);
                break;
            case EntryOutcome.AlreadyRecorded again:
                Repeats++;
                Note(entry, again.Sequence);
                break;
            case EntryOutcome.Refused no:
                if (recorded.ContainsKey(entry.EntryId))
                    problems.Add($"entry {entry.EntryId} was told as recorded, and then refused: {no.Reason}");
                else
                    refused[entry.EntryId] = entry;
                break;
        }
    }

    private void Note(DeskEntry entry, long sequence)
    {
        refused.Remove(entry.EntryId);
        if (recorded.TryGetValue(entry.EntryId, out var before) && before.Sequence != sequence)
            problems.Add($"entry {entry.EntryId} was told to stand at {before.Sequence}, and then at {sequence}");
        recorded[entry.EntryId] = (entry, sequence);
    }
}
