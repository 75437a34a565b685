namespace PupilBridge.Journal;

/// <summary>What a record is to the journal. Callers write entries; the other classes are the journal's own.</summary>
public enum RecordClass
{
    /// <summary>No class: never stored.</summary>
    None = 0,

    /// <summary>Bytes that a caller appended.</summary>
    Entry = 1,

    /// <summary>The journal's own remark on something that happened to it; see <see cref="JournalNotice"/>.</summary>
    Notice = 2,

    /// <summary>The last record before a clean stop.</summary>
    CleanStop = 3,
}

/// <summary>One record as read back.</summary>
/// <param name="Sequence">Its number, from 1, without holes while the journal is whole.</param>
/// <param name="Class">What it is; a projection reads entries and passes over the others.</param>
/// <param name="Payload">The bytes as they were appended; the record owns them.</param>
/// <param name="AfterDamage">
/// Whether records before it in the same segment are missing or unreadable. The record itself passed its checks.
/// </param>
public sealed record JournalRecord(long Sequence, RecordClass Class, ReadOnlyMemory<byte> Payload, bool AfterDamage)
{
    /// <summary>The chain's value after it.</summary>
    public ChainHash Hash { get; init; }
}
