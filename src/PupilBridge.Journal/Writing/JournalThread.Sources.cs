namespace PupilBridge.Journal;

// How entries come in: at once where the source has room, else in the order in which they waited for it.
public sealed partial class JournalThread
{
    internal ValueTask Post(
        JournalSource source,
        ReadOnlyMemory<byte> payload,
        IDurableListener? listener,
        long tag,
        CancellationToken cancel
    )
    {
        WaitingEntry entry;
        lock (_gate)
        {
            if (TryAdd_NeedsGate(source, payload.Span, listener, tag))
                return ValueTask.CompletedTask;
            entry = new WaitingEntry(payload, listener, tag);
            source.Wait_NeedsGate(entry);
            _waitingSources.Add(source);
        }
        return new ValueTask(cancel.CanBeCanceled ? CancellableWait(source, entry, cancel) : entry.Task);
    }

    internal bool TryPost(JournalSource source, ReadOnlySpan<byte> payload, IDurableListener? listener, long tag)
    {
        lock (_gate)
            return TryAdd_NeedsGate(source, payload, listener, tag);
    }

    private bool TryAdd_NeedsGate(
        JournalSource source,
        ReadOnlySpan<byte> payload,
        IDurableListener? listener,
        long tag
    )
    {
        _writer.CheckLength(payload.Length);
        if (_stopping)
            throw new JournalStoppedException("The journal has stopped; the entry is not recorded.");
        if (source.HasWaiting_NeedsGate || !source.HasRoom_NeedsGate(payload.Length, _limits))
            return false;
        Add_NeedsGate(source, payload, listener, tag);
        return true;
    }

    private void Add_NeedsGate(JournalSource source, ReadOnlySpan<byte> payload, IDurableListener? listener, long tag)
    {
        source.Take_NeedsGate(payload.Length);
        _gathering.Add(source, payload, listener, tag);
        if (_gathering.Count == 1)
            Monitor.Pulse(_gate);
    }

    private async Task CancellableWait(JournalSource source, WaitingEntry entry, CancellationToken cancel)
    {
        using (
            cancel.Register(() =>
            {
                // Once it has been let in it is on its way to the disk, and no longer to be called back.
                lock (_gate)
                {
                    if (source.Unwait_NeedsGate(entry))
                        entry.TrySetCanceled(cancel);
                }
            })
        )
            await entry.Task.ConfigureAwait(false);
    }

    /// <summary>Lets in, in their order, those who waited for room.</summary>
    private void Admit_NeedsGate()
    {
        if (_waitingSources.Count == 0)
            return;
        foreach (JournalSource source in _waitingSources)
        {
            while (
                source.FirstWaiting_NeedsGate is { } waiting
                && source.HasRoom_NeedsGate(waiting.Payload.Length, _limits)
            )
            {
                source.Unwait_NeedsGate(waiting);
                Add_NeedsGate(source, waiting.Payload.Span, waiting.Listener, waiting.Tag);
                waiting.TrySetResult();
            }
        }
        _waitingSources.RemoveWhere(s => !s.HasWaiting_NeedsGate);
    }
}
