namespace PupilBridge.Ports;

/// <summary>
/// Lets writers go one after the other, first come first served. There is no limit on the wait for one's turn: each
/// writer before is held to its own limit, so the wait is bounded by those.
/// </summary>
internal sealed class WriteTurns
{
    private readonly Lock queue = new();
    private readonly Queue<TaskCompletionSource> waiting = new();
    private bool taken;

    /// <summary>Done when it is the caller's turn; the caller then owes one <see cref="Pass"/>.</summary>
    internal ValueTask TakeAsync()
    {
        lock (queue)
        {
            if (!taken)
            {
                taken = true;
                return ValueTask.CompletedTask;
            }

            var turn = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            waiting.Enqueue(turn);
            return new ValueTask(turn.Task);
        }
    }

    /// <summary>Passes the turn on.</summary>
    internal void Pass()
    {
        lock (queue)
        {
            if (waiting.TryDequeue(out var next))
            {
                next.SetResult();
            }
            else
            {
                taken = false;
            }
        }
    }
}
