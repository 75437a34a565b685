using PupilBridge.Instrument.Timing;

namespace PupilBridge.Instrument.Tests.Timing;

public class TickClockTests
{
    private static readonly DateTimeOffset SwitchedOn = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Without_an_observation_it_says_nothing() => Assert.Null(TickClock.Unset.Estimate(new Tick(5)));

    // Every tick up to 2^63 - 1 is well-formed, so none may fail the host, whatever order they come in.
    [Theory]
    [InlineData(long.MaxValue)]
    [InlineData(TickClock.MaxBelievedMilliseconds + 1)]
    public void A_tick_beyond_belief_is_no_time_and_no_observation(long milliseconds)
    {
        var wild = new Tick(milliseconds);
        Assert.False(TickClock.Unset.Observe(wild, SwitchedOn).IsSet);
        var clock = TickClock.Unset.Observe(new Tick(1_000), SwitchedOn);
        Assert.Same(clock, clock.Observe(wild, SwitchedOn));
        Assert.Null(clock.Estimate(wild));
    }

    [Fact]
    public void The_largest_tick_that_is_believed_and_a_return_from_it_are_estimated()
    {
        var far = new Tick(TickClock.MaxBelievedMilliseconds);
        var clock = TickClock.Unset.Observe(new Tick(0), SwitchedOn).Observe(far, SwitchedOn.AddSeconds(1));
        Assert.NotNull(clock.Estimate(far));
        Assert.NotNull(clock.Observe(new Tick(2_000), SwitchedOn.AddSeconds(2)).Estimate(new Tick(0)));
        Assert.NotNull(TickClock.Unset.Observe(far, DateTimeOffset.UnixEpoch).Estimate(new Tick(0)));
    }

    [Fact]
    public void The_time_between_any_two_ticks_is_held_and_keeps_its_sign()
    {
        var span = new Tick(long.MaxValue) - new Tick(0);
        Assert.True(span > TimeSpan.FromDays(3_000_000));
        Assert.Equal(-span, new Tick(0) - new Tick(long.MaxValue));
        Assert.Equal(TimeSpan.FromMilliseconds(-5), new Tick(5) - new Tick(10));
    }

    // The check: instruments whose true time is known, over lines whose delay has a floor and a long tail.
    [Theory]
    [InlineData(0, 1, 5)]
    [InlineData(80, 2, 20)]
    [InlineData(-120, 16, 40)]
    [InlineData(300, 20, 5)]
    public void The_true_time_lies_within_the_uncertainty(double driftPpm, double leastDelayMs, double meanExcessMs)
    {
        var line = new DelayedLine(driftPpm, leastDelayMs, meanExcessMs, seed: 7);
        var clock = TickClock.Unset;
        var misses = 0;
        for (var second = 0; second < 600; second++)
        {
            clock = line.Beat(clock, second * 1000L);
            foreach (var back in new[] { 0, 700, 30_000, 90_000 })
            {
                if (second * 1000 < back)
                    continue;
                var tick = new Tick((second * 1000) - back);
                var estimate = clock.Estimate(tick)!.Value;
                var error = Math.Abs((estimate.At - line.TrueTime(tick.Milliseconds)).TotalMilliseconds);
                misses += error > estimate.UncertaintyMilliseconds ? 1 : 0;
            }
        }

        Assert.Equal(0, misses);
        Assert.InRange(clock.Drift * 1e6, driftPpm - 60, driftPpm + 60);
        Assert.InRange(clock.Estimate(new Tick(599_000))!.Value.UncertaintyMilliseconds, 10, 60);
    }

    [Fact]
    public void A_beat_that_waited_in_a_buffer_does_not_mislead_it_for_long()
    {
        var line = new DelayedLine(0, 5, 3, seed: 3);
        var clock = TickClock.Unset.Observe(new Tick(0), line.TrueTime(0).AddMilliseconds(800));
        Assert.InRange(clock.Estimate(new Tick(0))!.Value.UncertaintyMilliseconds, 1_000, 1_100);
        clock = line.Beat(line.Beat(clock, 1_000), 2_000);
        var estimate = clock.Estimate(new Tick(2_500))!.Value;
        var error = Math.Abs((estimate.At - line.TrueTime(2_500)).TotalMilliseconds);
        Assert.True(error < estimate.UncertaintyMilliseconds && estimate.UncertaintyMilliseconds < 100);
    }

    [Fact]
    public void A_drift_that_no_crystal_has_is_not_believed()
    {
        var line = new DelayedLine(5_000, 1, 1, seed: 4);
        var clock = TickClock.Unset;
        for (var second = 0; second < 60; second++)
            clock = line.Beat(clock, second * 1000L);
        Assert.Equal(TickClock.MaxDrift, Math.Abs(clock.Drift), 9);
    }

    [Fact]
    public void Further_from_the_window_the_uncertainty_grows()
    {
        var line = new DelayedLine(0, 2, 2, seed: 5);
        var clock = TickClock.Unset;
        for (var second = 0; second < 60; second++)
            clock = line.Beat(clock, second * 1000L);
        var near = clock.Estimate(new Tick(60_000))!.Value.UncertaintyMilliseconds;
        var far = clock.Estimate(new Tick(3_600_000))!.Value.UncertaintyMilliseconds;
        Assert.InRange(far - near, 50, 100);
    }

    [Fact]
    public void Within_one_second_the_least_delayed_counts()
    {
        var clock = TickClock.Unset.Observe(new Tick(10), SwitchedOn.AddMilliseconds(110));
        var better = clock.Observe(new Tick(20), SwitchedOn.AddMilliseconds(40));
        Assert.Equal(better, better.Observe(new Tick(30), SwitchedOn.AddMilliseconds(900)));
        Assert.True(better.Estimate(new Tick(10))!.Value.At < clock.Estimate(new Tick(10))!.Value.At);
    }

    /// <summary>A line whose delay never falls below a floor, with an exponential excess.</summary>
    private sealed class DelayedLine(double driftPpm, double leastDelayMs, double meanExcessMs, int seed)
    {
        private readonly Random random = new(seed);

        internal DateTimeOffset TrueTime(long tick) => SwitchedOn.AddMilliseconds(tick * (1 + (driftPpm * 1e-6)));

        internal TickClock Beat(TickClock clock, long tick)
        {
            var delay = leastDelayMs - (meanExcessMs * Math.Log(1 - random.NextDouble()));
            return clock.Observe(new Tick(tick), TrueTime(tick).AddMilliseconds(delay));
        }
    }
}
