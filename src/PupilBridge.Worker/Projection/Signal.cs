namespace PupilBridge.Worker.Projection;

/// <summary>Says that something is to be done. Many may set it, one waits; setting it twice is setting it once.</summary>
internal sealed class Signal
{
    private readonly Lock gate = new();
    private TaskCompletionSource set = New();

    public void Set()
    {
        lock (gate)
            set.TrySetResult();
    }

    /// <summary>Waits until it is set, and takes that back.</summary>
    /// <returns>False if it was not set within the time.</returns>
    public async Task<bool> WaitAsync(TimeSpan atMost, TimeProvider time, CancellationToken stop)
    {
        Task waiting;
        lock (gate)
            waiting = set.Task;
        try
        {
            await waiting.WaitAsync(atMost, time, stop).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            return false;
        }

        lock (gate)
            set = New();
        return true;
    }

    private static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
