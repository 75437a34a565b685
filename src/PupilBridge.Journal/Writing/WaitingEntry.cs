namespace PupilBridge.Journal;

/// <summary>An entry that waits for room. The continuation never runs on the journal's thread.</summary>
internal sealed class WaitingEntry(ReadOnlyMemory<byte> payload, IDurableListener? listener, long tag)
    : TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously)
{
    public ReadOnlyMemory<byte> Payload => payload;

    public IDurableListener? Listener => listener;

    public long Tag => tag;
}

/// <summary>Turns what a listener is told into a task.</summary>
internal sealed class DurableReceipt()
    : TaskCompletionSource<long>(TaskCreationOptions.RunContinuationsAsynchronously),
        IDurableListener
{
    public void OnDurable(long tag, long sequence) => TrySetResult(sequence);

    public void OnNotRecorded(long tag, string reason) => TrySetException(new JournalStoppedException(reason));
}
