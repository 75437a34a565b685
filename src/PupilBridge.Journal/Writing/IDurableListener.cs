namespace PupilBridge.Journal;

/// <summary>
/// Is told what became of an entry, on the journal's own thread and in the journal's order. It must be quick and must not
/// wait for anything: the next sync begins when it returns.
/// </summary>
public interface IDurableListener
{
    /// <summary>The entry is durable.</summary>
    /// <param name="tag">The number that was given with the entry.</param>
    /// <param name="sequence">Its sequence in the journal.</param>
    void OnDurable(long tag, long sequence);

    /// <summary>The journal stopped before the entry was durable; it is not recorded.</summary>
    /// <param name="tag">The number that was given with the entry.</param>
    /// <param name="reason">What to tell a person.</param>
    void OnNotRecorded(long tag, string reason);
}
