using PupilBridge.Worker.Lines;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Worker.Tests.Lines;

public sealed class DueTimerTests : IDisposable
{
    private readonly HandWoundTime time = new();
    private readonly DueTimer timer;
    private int rings;

    public DueTimerTests() => timer = new DueTimer(new MomentClock(time), () => rings++);

    [Fact]
    public void A_timer_that_rings_a_little_early_is_set_again_for_the_same_moment()
    {
        timer.Arm(TimeSpan.FromSeconds(1));
        time.Now = TimeSpan.FromSeconds(0.9996);
        time.Ring();
        timer.Arm(TimeSpan.FromSeconds(1));
        Assert.Equal(1, rings);
        Assert.Equal(2, time.Waits.Count);
        Assert.InRange(time.Waits[1], TimeSpan.FromMilliseconds(1), TimeSpan.FromMilliseconds(50));
    }

    [Fact]
    public void It_is_not_set_again_for_a_later_moment_but_for_an_earlier_one()
    {
        timer.Arm(TimeSpan.FromSeconds(1));
        timer.Arm(TimeSpan.FromSeconds(2));
        Assert.Single(time.Waits);
        timer.Arm(TimeSpan.FromSeconds(0.5));
        Assert.Equal([TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(0.5)], time.Waits);
    }

    [Fact]
    public void Nothing_due_sets_nothing_and_it_never_rings_before_the_moment_by_cutting_the_wait_short()
    {
        timer.Arm(null);
        timer.Arm(TimeSpan.FromMilliseconds(100.4));
        Assert.Equal([TimeSpan.FromMilliseconds(101)], time.Waits);
    }

    public void Dispose() => timer.Dispose();

    /// <summary>A clock that stands still until it is moved, with one timer that rings when told.</summary>
    private sealed class HandWoundTime : TimeProvider
    {
        private TimerCallback? callback;

        public TimeSpan Now { get; set; }

        public List<TimeSpan> Waits { get; } = [];

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => Now.Ticks;

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            this.callback = callback;
            return new Timer(this);
        }

        public void Ring() => callback!(null);

        private sealed class Timer(HandWoundTime time) : ITimer
        {
            public bool Change(TimeSpan dueTime, TimeSpan period)
            {
                time.Waits.Add(dueTime);
                return true;
            }

            public void Dispose() { }

            public ValueTask DisposeAsync() => ValueTask.CompletedTask;
        }
    }
}
