using System.Threading.Channels;

namespace PupilBridge.Worker.Live;

/// <summary>
/// Hands one stream of changes to any number of listeners, each behind a bounded channel of its own. A listener that
/// falls behind is dropped and told so; nobody waits for it.
/// </summary>
/// <typeparam name="T">What is told: values that never change once they are told.</typeparam>
/// <remarks>Safe for use by several threads. Changes reach each listener in the order in which they were told.</remarks>
public sealed class LiveFeed<T>
{
    private readonly Lock gate = new();
    private readonly int backlog;
    private readonly List<Channel<T>> listeners = [];
    private long dropped;

    /// <summary>Makes a feed without listeners.</summary>
    /// <param name="backlog">How many changes a listener may fall behind, from 1.</param>
    public LiveFeed(int backlog)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(backlog, 1);
        this.backlog = backlog;
    }

    /// <summary>How many listeners were dropped since the start because they fell behind.</summary>
    public long Dropped => Interlocked.Read(ref dropped);

    /// <summary>How many listeners there are now.</summary>
    public int Listeners
    {
        get
        {
            lock (gate)
                return listeners.Count;
        }
    }

    /// <summary>Begins to listen.</summary>
    /// <typeparam name="TSnapshot">What the listener begins with.</typeparam>
    /// <param name="snapshot">
    /// Takes the present state. It runs while no change can be told, so that the snapshot and the changes after it fit
    /// together without a hole.
    /// </param>
    /// <returns>The snapshot, and the changes that follow it.</returns>
    public (TSnapshot Snapshot, LiveSubscription<T> Changes) Listen<TSnapshot>(Func<TSnapshot> snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        var channel = Channel.CreateBounded<T>(new BoundedChannelOptions(backlog) { SingleReader = true });
        lock (gate)
        {
            var present = snapshot();
            listeners.Add(channel);
            return (present, new LiveSubscription<T>(channel.Reader, () => Forget(channel)));
        }
    }

    /// <summary>Takes the present state without listening.</summary>
    /// <typeparam name="TSnapshot">What is taken.</typeparam>
    /// <param name="snapshot">Takes it while no change can be told.</param>
    /// <returns>What was taken.</returns>
    public TSnapshot Look<TSnapshot>(Func<TSnapshot> snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        lock (gate)
            return snapshot();
    }

    /// <summary>Changes the state and tells all listeners of it, as one step.</summary>
    /// <param name="change">Makes the change and says what to tell; null tells nothing.</param>
    public void Tell(Func<T?> change)
    {
        ArgumentNullException.ThrowIfNull(change);
        lock (gate)
        {
            if (change() is not { } told)
                return;
            for (var i = listeners.Count - 1; i >= 0; i--)
            {
                if (listeners[i].Writer.TryWrite(told))
                    continue;
                listeners[i].Writer.TryComplete(new ListenerTooSlowException(backlog));
                listeners.RemoveAt(i);
                Interlocked.Increment(ref dropped);
            }
        }
    }

    private void Forget(Channel<T> channel)
    {
        lock (gate)
            listeners.Remove(channel);
        channel.Writer.TryComplete();
    }
}
