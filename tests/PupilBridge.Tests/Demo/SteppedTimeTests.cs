using PupilBridge.Demo;

namespace PupilBridge.Tests.Demo;

/// <summary>The demo's clock.</summary>
public sealed class SteppedTimeTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private readonly SteppedTime time = new(Start);

    [Fact]
    public void It_goes_only_when_told()
    {
        Assert.Equal(Start, time.GetUtcNow());
        time.Advance(TimeSpan.FromSeconds(90));
        Assert.Equal(Start.AddSeconds(90), time.GetUtcNow());
        Assert.Equal(TimeSpan.FromSeconds(90), time.GetElapsedTime(0));
    }

    [Fact]
    public void Timers_fire_in_their_order_at_the_moment_they_are_due()
    {
        var fired = new List<(string Name, TimeSpan At)>();
        using var late = Timer("late", 30, Timeout.Infinite, fired);
        using var again = Timer("again", 10, 15, fired);
        time.Advance(TimeSpan.FromMilliseconds(9));
        Assert.Empty(fired);
        time.Advance(TimeSpan.FromMilliseconds(31));
        Assert.Equal(["again", "again", "late", "again"], fired.Select(f => f.Name));
        Assert.Equal([10, 25, 30, 40], fired.Select(f => f.At.TotalMilliseconds));
    }

    [Fact]
    public void A_timer_that_is_disposed_of_or_changed_does_not_fire()
    {
        var fired = new List<(string Name, TimeSpan At)>();
        var gone = Timer("gone", 10, Timeout.Infinite, fired);
        using var moved = Timer("moved", 10, Timeout.Infinite, fired);
        gone.Dispose();
        moved.Change(TimeSpan.FromMilliseconds(50), Timeout.InfiniteTimeSpan);
        time.Advance(TimeSpan.FromMilliseconds(49));
        Assert.Empty(fired);
        time.Advance(TimeSpan.FromMilliseconds(1));
        Assert.Equal("moved", Assert.Single(fired).Name);
    }

    [Fact]
    public async Task A_delay_ends_when_its_time_has_come()
    {
        var delay = Task.Delay(TimeSpan.FromHours(1), time);
        time.Advance(TimeSpan.FromMinutes(59));
        Assert.False(delay.IsCompleted);
        time.Advance(TimeSpan.FromMinutes(1));
        await delay.WaitAsync(TimeSpan.FromSeconds(20));
    }

    private ITimer Timer(string name, int due, int period, List<(string Name, TimeSpan At)> fired) =>
        time.CreateTimer(
            _ => fired.Add((name, time.Elapsed)),
            null,
            TimeSpan.FromMilliseconds(due),
            TimeSpan.FromMilliseconds(period)
        );
}
