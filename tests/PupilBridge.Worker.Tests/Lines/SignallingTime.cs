using System.Threading.Channels;
using Microsoft.Extensions.Time.Testing;

namespace PupilBridge.Worker.Tests.Lines;

/// <summary>A clock that stands until told, and that says when somebody begins to wait on it, and for how long.</summary>
public sealed class SignallingTime : FakeTimeProvider
{
    private readonly Channel<(TimeSpan Due, TimeSpan Period)> waits = Channel.CreateUnbounded<(TimeSpan, TimeSpan)>();

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var timer = base.CreateTimer(callback, state, dueTime, period);
        waits.Writer.TryWrite((dueTime, period));
        return timer;
    }

    /// <summary>The next wait that somebody began, in the order of beginning.</summary>
    public async Task<TimeSpan> NextWaitAsync() => (await NextTimerAsync()).Due;

    /// <summary>The next timer that somebody made: when it is due, and how often it comes again.</summary>
    public async Task<(TimeSpan Due, TimeSpan Period)> NextTimerAsync() =>
        await waits.Reader.ReadAsync(new CancellationTokenSource(TimeSpan.FromSeconds(30)).Token);
}
