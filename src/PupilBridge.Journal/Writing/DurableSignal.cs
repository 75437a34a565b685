namespace PupilBridge.Journal;

/// <summary>The durable position, published: one writes it, many read it and can wait for it to move. Safe from any thread.</summary>
public sealed class DurableSignal
{
    private readonly Lock _gate = new();
    private JournalPosition _position;
    private TaskCompletionSource? _moved;

    internal DurableSignal(JournalPosition position) => _position = position;

    /// <summary>The durable position.</summary>
    public JournalPosition Position
    {
        get
        {
            lock (_gate)
                return _position;
        }
    }

    /// <summary>Completes when the durable sequence is beyond the one given.</summary>
    public async Task WaitBeyondAsync(long sequence, CancellationToken cancel = default)
    {
        while (true)
        {
            Task moved;
            lock (_gate)
            {
                if (_position.Sequence > sequence)
                    return;
                _moved ??= new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
                moved = _moved.Task;
            }
            await moved.WaitAsync(cancel).ConfigureAwait(false);
        }
    }

    internal void Publish(JournalPosition position)
    {
        TaskCompletionSource? moved;
        lock (_gate)
        {
            _position = position;
            moved = _moved;
            _moved = null;
        }
        moved?.TrySetResult();
    }
}
