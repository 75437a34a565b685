using PupilBridge.Conformance.Lines;
using PupilBridge.Ports;

namespace PupilBridge.Conformance.Tests.Lines;

/// <summary>A port read with limits, without losing a byte.</summary>
public sealed class PortWireTests
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(5);

    [Fact]
    public async Task Bytes_that_come_after_a_wait_that_ran_out_are_read_and_the_port_is_not_taken_for_lost()
    {
        await using var line = new MemoryLine("quay", TimeProvider.System);
        await using var wire = new PortWire(await line.Host.OpenAsync(), TimeProvider.System);
        for (byte i = 1; i < 20; i++)
        {
            Assert.True((await wire.ReadAsync(wire.Now + TimeSpan.FromMilliseconds(5), default)).Bytes.IsEmpty);
            await line.WriteAsync(new byte[] { i }, Limit);
            await Task.Delay(5);
            Assert.Equal([i], (await wire.ReadAsync(wire.Now + Limit, default)).Bytes.ToArray());
        }
    }

    [Fact]
    public async Task A_pulled_cable_is_told_after_what_came_before_it()
    {
        await using var line = new MemoryLine("quay", TimeProvider.System);
        await using var wire = new PortWire(await line.Host.OpenAsync(), TimeProvider.System);
        await line.WriteAsync(new byte[] { 1 }, Limit);
        line.Unplug();
        Assert.Equal([1], (await wire.ReadAsync(wire.Now + Limit, default)).Bytes.ToArray());
        await Assert.ThrowsAsync<PortLostException>(async () => await wire.ReadAsync(wire.Now + Limit, default));
    }

    [Fact]
    public async Task Whoever_gives_up_does_not_wait()
    {
        await using var line = new MemoryLine("quay", TimeProvider.System);
        await using var wire = new PortWire(await line.Host.OpenAsync(), TimeProvider.System);
        using var stop = new CancellationTokenSource();
        var reading = wire.ReadAsync(wire.Now + TimeSpan.FromDays(365), stop.Token).AsTask();
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => reading);
    }
}
