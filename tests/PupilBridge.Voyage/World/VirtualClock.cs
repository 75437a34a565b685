namespace PupilBridge.Voyage.World;

/// <summary>
/// The two clocks of the simulated machine: one that only goes on, by steps of the simulation, and the time of day, which
/// someone may set forwards or backwards while everything runs.
/// </summary>
internal sealed class VirtualClock : TimeProvider
{
    private static readonly DateTimeOffset Start = new(2026, 6, 1, 6, 0, 0, TimeSpan.Zero);

    /// <summary>Time since the beginning.</summary>
    public TimeSpan Now { get; private set; }

    /// <summary>By how much the time of day was set away from the truth.</summary>
    public TimeSpan SetOff { get; private set; }

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override DateTimeOffset GetUtcNow() => Start + Now + SetOff;

    public override long GetTimestamp() => Now.Ticks;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        throw new NotSupportedException("Nothing in a voyage waits: whatever is due is a step of the simulation.");

    /// <summary>Goes on to a moment.</summary>
    public void GoTo(TimeSpan moment) => Now = moment > Now ? moment : Now;

    /// <summary>Someone sets the time of day.</summary>
    public void Set(TimeSpan by) => SetOff += by;
}
