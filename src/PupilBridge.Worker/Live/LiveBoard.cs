namespace PupilBridge.Worker.Live;

/// <summary>
/// Everything that is live: ports, instruments, and what follows. Whoever looks gets a snapshot and then the changes;
/// whoever is too slow starts over. Nobody who writes here waits for anybody who looks.
/// </summary>
/// <remarks>Safe for several threads.</remarks>
/// <param name="backlog">How many changes a viewer may fall behind.</param>
public sealed class LiveBoard(int backlog)
{
    private readonly LiveFeed<LiveChange> feed = new(backlog);
    private readonly SortedDictionary<string, PortStatus> ports = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, LiveInstrument> instruments = new(StringComparer.Ordinal);

    /// <summary>How many viewers were dropped since the start because they fell behind.</summary>
    public long Dropped => feed.Dropped;

    /// <summary>The present state and the changes that follow it. Dispose the changes to stop.</summary>
    /// <returns>Both, without a hole between them.</returns>
    public (LiveSnapshot Snapshot, LiveSubscription<LiveChange> Changes) Watch() => feed.Listen(Take);

    /// <summary>The present state alone.</summary>
    /// <returns>The state.</returns>
    public LiveSnapshot Look() => feed.Look(Take);

    internal void Set(PortStatus port) =>
        feed.Tell(() =>
        {
            ports[port.Port] = port;
            return new LiveChange.PortChanged(port);
        });

    internal void Remove(string port) => feed.Tell(() => ports.Remove(port) ? new LiveChange.PortGone(port) : null);

    internal void Set(LiveInstrument instrument) =>
        feed.Tell(() =>
        {
            instruments[instrument.Serial.Value] = instrument;
            return new LiveChange.InstrumentChanged(instrument);
        });

    internal void Tell(LiveChange change) => feed.Tell(() => change);

    private LiveSnapshot Take() => new([.. ports.Values], [.. instruments.Values]);
}
