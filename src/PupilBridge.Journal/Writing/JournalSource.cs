namespace PupilBridge.Journal;

/// <summary>
/// One who gives entries to the journal (an instrument, the people at one screen). Each has a share of the room, so that
/// one with a backlog makes itself wait and not the others. Entries of one source are recorded in the order given.
/// Safe from any thread.
/// </summary>
public sealed class JournalSource
{
    private readonly JournalThread _thread;
    private readonly LinkedList<WaitingEntry> _waiting = [];
    private int _pendingCount;
    private long _pendingBytes;

    internal JournalSource(JournalThread thread, string name)
    {
        _thread = thread;
        Name = name;
    }

    /// <summary>The source's name, for a person.</summary>
    public string Name { get; }

    /// <summary>
    /// Gives an entry and waits until it is durable. The payload must stay unchanged until then.
    /// </summary>
    /// <returns>Its sequence.</returns>
    /// <exception cref="JournalStoppedException">The journal stopped first; the entry is not recorded.</exception>
    /// <exception cref="OperationCanceledException">Cancelled while it still waited for room: it is not recorded.</exception>
    public ValueTask<long> AppendAsync(ReadOnlyMemory<byte> payload, CancellationToken cancel = default)
    {
        var receipt = new DurableReceipt();
        ValueTask room = PostAsync(payload, receipt, 0, cancel);
        return room.IsCompletedSuccessfully ? new ValueTask<long>(receipt.Task) : AfterRoom(room, receipt);
    }

    /// <summary>
    /// Gives an entry; completes when there was room for it, which fixes its place in the order. The listener is told when it
    /// is durable. The payload is copied before this completes and must stay unchanged until then.
    /// </summary>
    /// <exception cref="JournalStoppedException">The journal has stopped; the listener is not told.</exception>
    /// <exception cref="OperationCanceledException">Cancelled while it waited for room; the listener is not told.</exception>
    public ValueTask PostAsync(
        ReadOnlyMemory<byte> payload,
        IDurableListener? listener,
        long tag,
        CancellationToken cancel = default
    )
    {
        cancel.ThrowIfCancellationRequested();
        return _thread.Post(this, payload, listener, tag, cancel);
    }

    /// <summary>Like <see cref="PostAsync"/>, if there is room at once; false when there is none.</summary>
    /// <exception cref="JournalStoppedException">The journal has stopped.</exception>
    public bool TryPost(ReadOnlySpan<byte> payload, IDurableListener? listener, long tag) =>
        _thread.TryPost(this, payload, listener, tag);

    /// <summary>Like <see cref="PostAsync"/>, for a thread that may wait.</summary>
    public void Post(ReadOnlyMemory<byte> payload, IDurableListener? listener, long tag)
    {
        if (!TryPost(payload.Span, listener, tag))
            PostAsync(payload, listener, tag).AsTask().GetAwaiter().GetResult();
    }

    private static async ValueTask<long> AfterRoom(ValueTask room, DurableReceipt receipt)
    {
        await room.ConfigureAwait(false);
        return await receipt.Task.ConfigureAwait(false);
    }

    // What follows is called with the thread's gate held.

    internal bool HasRoom_NeedsGate(int bytes, JournalThreadOptions limits) =>
        _pendingCount == 0
        || (_pendingCount < limits.SharePerSource && _pendingBytes + bytes <= limits.ShareBytesPerSource);

    internal bool HasWaiting_NeedsGate => _waiting.Count > 0;

    internal WaitingEntry? FirstWaiting_NeedsGate => _waiting.First?.Value;

    internal void Wait_NeedsGate(WaitingEntry entry) => _waiting.AddLast(entry);

    internal bool Unwait_NeedsGate(WaitingEntry entry) => _waiting.Remove(entry);

    internal void Take_NeedsGate(int bytes)
    {
        _pendingCount++;
        _pendingBytes += bytes;
    }

    internal void Release_NeedsGate(int bytes)
    {
        _pendingCount--;
        _pendingBytes -= bytes;
    }
}
