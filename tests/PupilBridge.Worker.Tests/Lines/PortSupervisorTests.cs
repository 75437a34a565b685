using Moq;
using PupilBridge.Ports;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Tests.Lines;

public sealed class PortSupervisorTests
{
    private static Mock<IPortOpener> Opener(string name = "port-1")
    {
        var opener = new Mock<IPortOpener>(MockBehavior.Strict);
        opener.SetupGet(o => o.Name).Returns(name);
        return opener;
    }

    private static PortOpenException Fault(PortOpenFault fault) => new("port-1", fault, $"It is {fault}; do this.");

    [Theory]
    [InlineData(PortOpenFault.Missing, PortPhase.Absent)]
    [InlineData(PortOpenFault.NoDevice, PortPhase.Absent)]
    [InlineData(PortOpenFault.Busy, PortPhase.Busy)]
    [InlineData(PortOpenFault.Forbidden, PortPhase.Forbidden)]
    [InlineData(PortOpenFault.NotATerminal, PortPhase.Unsuitable)]
    [InlineData(PortOpenFault.IsDirectory, PortPhase.Unsuitable)]
    [InlineData(PortOpenFault.Other, PortPhase.BackingOff)]
    public async Task A_port_that_does_not_open_says_why_and_when_it_is_tried_again(
        PortOpenFault fault,
        PortPhase phase
    )
    {
        var time = new SignallingTime();
        using var bench = new LineBench(time);
        var opener = Opener();
        opener.Setup(o => o.OpenAsync()).ThrowsAsync(Fault(fault));
        bench.Serve(opener.Object);
        await time.NextWaitAsync();

        var status = bench.Status("port-1");
        Assert.Equal(phase, status.Phase);
        Assert.Equal($"It is {fault}; do this.", status.Message);
        Assert.Equal(TimeSpan.FromMilliseconds(250), status.NextTryAt - time.GetUtcNow());
    }

    [Fact]
    public async Task A_port_that_opens_and_dies_waits_as_long_as_one_that_does_not_open()
    {
        var time = new SignallingTime();
        using var bench = new LineBench(time);
        var opener = Opener();
        opener.Setup(o => o.OpenAsync()).ReturnsAsync(() => Dying());
        var supervisor = bench.Serve(opener.Object);

        double[] expected = [0.25, 0.5, 1, 2, 4, 8, 16, 30, 30];
        foreach (var seconds in expected)
        {
            var wait = await NextReconnectAsync(time);
            Assert.Equal(seconds, wait.TotalSeconds);
            time.Advance(wait);
        }

        await NextReconnectAsync(time);
        Assert.Equal(expected.Length + 1, supervisor.Opened);
        Assert.Contains("pulled", bench.Status("port-1").Message, StringComparison.Ordinal);
    }

    /// <summary>A port that takes writes and dies at the first read.</summary>
    private static IPort Dying()
    {
        var port = new Mock<IPort>();
        port.SetupGet(p => p.Name).Returns("port-1");
        port.Setup(p => p.ReadAsync(It.IsAny<Memory<byte>>()))
            .Returns(() => ValueTask.FromException<int>(new PortLostException("port-1", "the cable was pulled.")));
        return port.Object;
    }

    /// <summary>The next wait that is not a line's own timer, which is made before it is set.</summary>
    private static async Task<TimeSpan> NextReconnectAsync(SignallingTime time)
    {
        while (true)
        {
            var (due, period) = await time.NextTimerAsync();
            if (period == Timeout.InfiniteTimeSpan && due != Timeout.InfiniteTimeSpan)
                return due;
        }
    }

    [Fact]
    public async Task A_port_that_works_after_some_failures_is_served()
    {
        var time = new SignallingTime();
        using var bench = new LineBench(time);
        var line = new MemoryLine("port-1", time);
        await using var instrument = new LiveTestInstrument(line, time).Start();
        var opener = Opener(line.Name);
        opener
            .SetupSequence(o => o.OpenAsync())
            .ThrowsAsync(Fault(PortOpenFault.Missing))
            .ThrowsAsync(Fault(PortOpenFault.Forbidden))
            .Returns(() => line.Host.OpenAsync());
        bench.Serve(opener.Object);
        time.Advance(await NextReconnectAsync(time));
        time.Advance(await NextReconnectAsync(time));

        await Eventually.Is(() => bench.Status(line.Name).Phase == PortPhase.Live);
        opener.Verify(o => o.OpenAsync(), Times.Exactly(3));
    }

    [Fact]
    public async Task Waking_tries_at_once_and_starts_the_waits_anew()
    {
        var time = new SignallingTime();
        using var bench = new LineBench(time);
        var opener = Opener();
        opener.Setup(o => o.OpenAsync()).ThrowsAsync(Fault(PortOpenFault.Missing));
        var supervisor = bench.Serve(opener.Object);
        time.Advance(await NextReconnectAsync(time));
        Assert.Equal(0.5, (await NextReconnectAsync(time)).TotalSeconds);
        supervisor.Wake();
        Assert.Equal(0.25, (await NextReconnectAsync(time)).TotalSeconds);
        opener.Verify(o => o.OpenAsync(), Times.Exactly(3));
    }

    [Fact]
    public async Task A_write_that_the_port_does_not_take_ends_the_line()
    {
        var time = new SignallingTime();
        using var bench = new LineBench(time);
        var opener = Opener();
        var closed = new TaskCompletionSource<int>(TaskCreationOptions.RunContinuationsAsynchronously);
        var port = new Mock<IPort>();
        port.SetupGet(p => p.Name).Returns("port-1");
        port.Setup(p => p.ReadAsync(It.IsAny<Memory<byte>>())).Returns(new ValueTask<int>(closed.Task));
        port.Setup(p => p.WriteAsync(It.IsAny<ReadOnlyMemory<byte>>(), TimeSpan.FromSeconds(1)))
            .Returns(() =>
                ValueTask.FromException(new PortLostException("port-1", "it did not take a write in time."))
            );
        port.Setup(p => p.Close()).Callback(() => closed.TrySetResult(0));
        opener.Setup(o => o.OpenAsync()).ReturnsAsync(port.Object);
        bench.Serve(opener.Object);

        await NextReconnectAsync(time);
        Assert.Equal(PortPhase.BackingOff, bench.Status("port-1").Phase);
        Assert.Contains("did not take a write", bench.Status("port-1").Message, StringComparison.Ordinal);
        port.Verify(p => p.DisposeAsync(), Times.Once);
    }

    [Fact]
    public async Task Stopping_closes_the_port_and_ends_within_two_seconds_also_while_opening_hangs()
    {
        using var bench = new LineBench();
        var line = new MemoryLine("port-1", TimeProvider.System);
        await using var instrument = new LiveTestInstrument(line, TimeProvider.System).Start();
        bench.Serve(line.Host);
        var hanging = Opener("hanging");
        hanging.Setup(o => o.OpenAsync()).Returns(new ValueTask<IPort>(new TaskCompletionSource<IPort>().Task));
        bench.Serve(hanging.Object);
        await Eventually.Is(() => bench.Status(line.Name).Phase == PortPhase.Live);

        await bench.StopAsync().WaitAsync(TimeSpan.FromSeconds(2));
        Assert.False(line.HasHost);
        Assert.Equal(PortPhase.Stopped, bench.Status(line.Name).Phase);
        Assert.Equal(PortPhase.Stopped, bench.Status("hanging").Phase);
    }
}
