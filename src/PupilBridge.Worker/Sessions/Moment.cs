using PupilBridge.Exams.Entries;

namespace PupilBridge.Worker.Sessions;

/// <summary>One moment on both clocks of the machine.</summary>
/// <param name="Monotonic">Time since the service started; it never jumps, and all waiting is measured by it.</param>
/// <param name="Utc">The time of day, which may be set while the service runs; it is only written down.</param>
public readonly record struct Moment(TimeSpan Monotonic, DateTimeOffset Utc)
{
    /// <summary>The time of day as entries have it.</summary>
    public UtcTime At => UtcTime.From(Utc);
}

/// <summary>Tells the moment; all lines of one service share one.</summary>
/// <param name="time">The clock beneath.</param>
public sealed class MomentClock(TimeProvider time)
{
    private readonly long origin = time.GetTimestamp();

    /// <summary>The clock beneath, for waiting.</summary>
    public TimeProvider Time => time;

    /// <summary>The present moment.</summary>
    public Moment Now => new(time.GetElapsedTime(origin), time.GetUtcNow());
}
