using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Timing;

namespace PupilBridge.Worker.Sessions;

/// <summary>The time of day of one instrument's ticks, boot after boot, estimated from its heartbeats.</summary>
internal sealed class TickTimes
{
    private BootNumber boot;
    private TickClock clock = TickClock.Unset;

    /// <summary>An estimate as it is fixed in an entry.</summary>
    /// <param name="HappenedAt">The time of day.</param>
    /// <param name="UncertaintyMilliseconds">How far it may be off in either direction.</param>
    internal readonly record struct Time(UtcTime HappenedAt, long UncertaintyMilliseconds);

    /// <summary>Whether the ticks of a boot can be told as times.</summary>
    public bool Knows(BootNumber present) => boot == present && clock.IsSet;

    /// <summary>Takes in a heartbeat.</summary>
    public void OnBeat(in Heartbeat beat, Moment now)
    {
        if (beat.Boot != boot)
            (boot, clock) = (beat.Boot, TickClock.Unset);
        clock = clock.Observe(beat.Tick, OnSteadyClock(now));
    }

    /// <summary>
    /// When a tick was. Without any heartbeat of its boot, or with a tick beyond belief, only two things are sure: it was
    /// after switching on, and it was before now.
    /// </summary>
    public Time Estimate(BootNumber of, Tick tick, Moment now)
    {
        if (!Knows(of) || clock.Estimate(tick) is not { } estimate)
            return new Time(now.At, Math.Min(tick.Milliseconds, TickClock.MaxBelievedMilliseconds));
        // The estimate lies on the clock that never jumps; its distance from now holds on every clock.
        var ago = OnSteadyClock(now) - estimate.At;
        var happened = UtcTime.From(now.Utc - (ago > TimeSpan.Zero ? ago : TimeSpan.Zero));
        return new Time(happened, (long)Math.Ceiling(estimate.UncertaintyMilliseconds));
    }

    private static DateTimeOffset OnSteadyClock(Moment now) => DateTimeOffset.UnixEpoch + now.Monotonic;
}
