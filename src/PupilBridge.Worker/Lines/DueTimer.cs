using PupilBridge.Worker.Sessions;

namespace PupilBridge.Worker.Lines;

/// <summary>
/// Rings when a line has something to do because time passed. It is set anew only for an earlier moment; one that has moved
/// on rings too early, which does no harm and costs less than setting it after each step. Not safe for several threads:
/// the line's lock guards it.
/// </summary>
internal sealed class DueTimer : IDisposable
{
    /// <summary>It rings no later than at the due moment, and no sooner than this, so that it can never ring without end.</summary>
    private static readonly TimeSpan Least = TimeSpan.FromMilliseconds(10);

    private readonly MomentClock clock;
    private readonly ITimer timer;
    private TimeSpan? set;
    private volatile bool rang;
    private bool over;

    /// <summary>Makes a timer that is not set.</summary>
    /// <param name="clock">The clock it runs on.</param>
    /// <param name="ring">What to do when it rings; it sets the timer anew by way of its step.</param>
    public DueTimer(MomentClock clock, Action ring)
    {
        this.clock = clock;
        timer = clock.Time.CreateTimer(_ => Ring(ring), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>Sees to it that it rings at a moment, or earlier.</summary>
    /// <param name="due">When, on the monotonic clock; null for never.</param>
    public void Arm(TimeSpan? due)
    {
        if (over || due is not { } at)
            return;
        var now = clock.Now.Monotonic;

        // A timer may ring a fraction of a millisecond before its moment. It is spent all the same: what is still due then
        // must set it anew, or nothing would ever ring again.
        if (rang)
            (rang, set) = (false, null);
        if (set is { } already && already > now && already <= at)
            return;
        var wait = at - now;
        wait = wait < Least ? Least : TimeSpan.FromMilliseconds(Math.Ceiling(wait.TotalMilliseconds));
        set = now + wait;
        timer.Change(wait, Timeout.InfiniteTimeSpan);
    }

    private void Ring(Action ring)
    {
        rang = true;
        ring();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        over = true;
        timer.Dispose();
    }
}
