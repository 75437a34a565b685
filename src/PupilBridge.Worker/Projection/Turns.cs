namespace PupilBridge.Worker.Projection;

/// <summary>Counts the turns that something took, for threads that stand and wait for the next one.</summary>
internal sealed class Turns
{
    // A monitor, not a Lock: only a monitor can be waited on.
    private readonly object gate = new();
    private long count;

    /// <summary>How many turns there were.</summary>
    public long Count => Interlocked.Read(ref count);

    /// <summary>Takes a turn and wakes all who wait.</summary>
    public void Next()
    {
        lock (gate)
        {
            Interlocked.Increment(ref count);
            Monitor.PulseAll(gate);
        }
    }

    /// <summary>Blocks the calling thread until there were more turns than it has seen; not at all if there were already.</summary>
    /// <param name="seen">The <see cref="Count"/> before it looked.</param>
    public void WaitBeyond(long seen)
    {
        lock (gate)
        {
            while (Count <= seen)
                Monitor.Wait(gate);
        }
    }
}
