namespace PupilBridge.Ports.Tests;

public abstract partial class PortContract
{
    [Fact]
    public async Task Opening_twice_leaves_the_first_alone_and_turns_the_second_away()
    {
        await using var first = await Opener.OpenAsync();
        await Eventually.Is(() => Instrument.HasHost, () => "The instrument must see a host.");

        await AssertTurnedAway();

        await first.WriteAsync("still here"u8.ToArray(), Deadline);
        Assert.Equal("still here"u8.ToArray(), await ReadExactly(Instrument, 10));
        await Instrument.WriteAsync("so am I"u8.ToArray(), Deadline);
        Assert.Equal("so am I"u8.ToArray(), await ReadExactly(first, 7));
    }

    [Fact]
    public async Task A_second_waiting_read_is_a_mistake_that_is_told()
    {
        await using var host = await Opener.OpenAsync();
        var first = host.ReadAsync(new byte[8]).AsTask();
        await Assert.ThrowsAsync<InvalidOperationException>(async () => await host.ReadAsync(new byte[8]));
        await Instrument.WriteAsync("x"u8.ToArray(), Deadline);
        Assert.Equal(1, await first.WaitAsync(Deadline));
    }

    private protected virtual async Task AssertTurnedAway()
    {
        var busy = await Assert.ThrowsAsync<PortOpenException>(async () => await Opener.OpenAsync());
        Assert.Equal(PortOpenFault.Busy, busy.Fault);
        Assert.Contains("in use", busy.Message, StringComparison.Ordinal);
    }
}
