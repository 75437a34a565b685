namespace PupilBridge.Journal;

/// <summary>
/// A point in the journal: the last sequence number and the chain's value there. The default is the empty journal.
/// Written down elsewhere (on paper, on a certificate), it proves later that nothing up to it was altered.
/// </summary>
/// <param name="Sequence">The last sequence number, 0 when there is none.</param>
/// <param name="Hash">The chain's value: the hash of the last record, or of the segment header after it.</param>
public readonly record struct JournalPosition(long Sequence, ChainHash Hash)
{
    /// <inheritdoc/>
    public override string ToString() => $"{Sequence}:{Hash}";
}
