namespace PupilBridge.Demo;

/// <summary>
/// A clock that goes only when it is told to. The demo gives it to everything that waits or dates something, and lets it go
/// faster than the clock on the wall; timers fire in their order at the moment they are due, on the thread that steps.
/// </summary>
/// <param name="start">The time of day at which it begins.</param>
internal sealed class SteppedTime(DateTimeOffset start) : TimeProvider
{
    private readonly Lock gate = new();
    private readonly List<StepTimer> timers = [];
    private long elapsedTicks;

    /// <summary>How much time has passed since the beginning.</summary>
    public TimeSpan Elapsed => TimeSpan.FromTicks(Interlocked.Read(ref elapsedTicks));

    /// <inheritdoc/>
    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    /// <inheritdoc/>
    public override long GetTimestamp() => Interlocked.Read(ref elapsedTicks);

    /// <inheritdoc/>
    public override DateTimeOffset GetUtcNow() => (start + Elapsed).ToUniversalTime();

    /// <summary>Lets time pass and fires what becomes due.</summary>
    /// <param name="time">How much, 0 or more.</param>
    public void Advance(TimeSpan time)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(time, TimeSpan.Zero);
        var target = GetTimestamp() + time.Ticks;
        while (TakeDue(target) is { } due)
        {
            due.Fire();
        }

        Interlocked.Exchange(ref elapsedTicks, target);
    }

    /// <inheritdoc/>
    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        ArgumentNullException.ThrowIfNull(callback);
        var timer = new StepTimer(this, callback, state);
        timer.Change(dueTime, period);
        return timer;
    }

    private StepTimer? TakeDue(long target)
    {
        lock (gate)
        {
            StepTimer? next = null;
            foreach (var timer in timers)
            {
                if (timer.DueAt <= target && (next is null || timer.DueAt < next.DueAt))
                {
                    next = timer;
                }
            }

            if (next is null)
            {
                return null;
            }

            Interlocked.Exchange(ref elapsedTicks, Math.Max(GetTimestamp(), next.DueAt));
            if (next.Period <= TimeSpan.Zero)
            {
                timers.Remove(next);
            }
            else
            {
                next.DueAt += next.Period.Ticks;
            }

            return next;
        }
    }

    private sealed class StepTimer(SteppedTime time, TimerCallback callback, object? state) : ITimer
    {
        public long DueAt { get; set; }

        public TimeSpan Period { get; private set; }

        public void Fire() => callback(state);

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            lock (time.gate)
            {
                time.timers.Remove(this);
                Period = period;
                if (dueTime != Timeout.InfiniteTimeSpan)
                {
                    DueAt = time.GetTimestamp() + dueTime.Ticks;
                    time.timers.Add(this);
                }
            }

            return true;
        }

        public void Dispose()
        {
            lock (time.gate)
            {
                time.timers.Remove(this);
            }
        }

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
