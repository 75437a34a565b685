using PupilBridge.Exams.Entries;
using PupilBridge.Journal;

namespace PupilBridge.Worker.Keeping.Index;

/// <summary>How much is gathered before it is written.</summary>
internal sealed record EntryIndexOptions
{
    /// <summary>How many ids of people's entries; about as many are held in memory twice.</summary>
    public int IdsAtOnce { get; init; } = 32_768;

    /// <summary>How many entries of any kind: what a start after a killed process reads from the journal at most.</summary>
    public int EntriesAtOnce { get; init; } = 65_536;
}

/// <summary>The journal, as the entry index asks it.</summary>
/// <param name="HashAt">The chain's value after the record of a sequence; null where there is no such record.</param>
/// <param name="Entries">All entries that are durable now, from the first.</param>
internal sealed record IndexSource(Func<long, ChainHash?> HashAt, Func<IEnumerable<SequencedEntry>> Entries);
