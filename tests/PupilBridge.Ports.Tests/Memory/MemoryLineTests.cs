namespace PupilBridge.Ports.Tests;

public sealed class MemoryLineTests
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(10);

    [Fact]
    public async Task Bytes_go_both_ways()
    {
        await using var line = new MemoryLine("quay", TimeProvider.System);
        await using var host = await line.Host.OpenAsync();
        var buffer = new byte[8];

        await host.WriteAsync(new byte[] { 1, 2 }, Soon);
        Assert.Equal(2, await line.ReadAsync(buffer));
        Assert.Equal(new byte[] { 1, 2 }, buffer[..2]);

        await line.WriteAsync(new byte[] { 3 }, Soon);
        Assert.Equal(1, await host.ReadAsync(buffer));
        Assert.Equal(3, buffer[0]);
    }

    [Fact]
    public async Task What_crossed_before_the_unplug_is_read_before_the_loss_is_told()
    {
        await using var line = new MemoryLine("quay", TimeProvider.System);
        await using var host = await line.Host.OpenAsync();
        await line.WriteAsync(new byte[] { 7 }, Soon);

        line.Unplug();

        var buffer = new byte[8];
        Assert.Equal(1, await host.ReadAsync(buffer));
        await Assert.ThrowsAsync<PortLostException>(async () => await host.ReadAsync(buffer));
        await Assert.ThrowsAsync<PortLostException>(async () => await host.ReadAsync(buffer));
    }

    [Fact]
    public async Task Lines_are_found_by_name_at_each_opening()
    {
        var lines = new MemoryLines();
        var opener = new PortOpeners(new PortSettings(), lines).For(PortAddress.Parse("memory:quay"));
        var missing = await Assert.ThrowsAsync<PortOpenException>(async () => await opener.OpenAsync());
        Assert.Equal(PortOpenFault.Missing, missing.Fault);

        await using var line = new MemoryLine("quay", TimeProvider.System);
        lines.Add(line);
        await using var host = await opener.OpenAsync();
        Assert.True(line.HasHost);

        lines.Remove(line);
        missing = await Assert.ThrowsAsync<PortOpenException>(async () => await opener.OpenAsync());
        Assert.Equal(PortOpenFault.Missing, missing.Fault);
    }
}
