namespace PupilBridge.Ports.Tests;

public abstract partial class PortContract
{
    [Fact]
    public async Task An_unplug_ends_a_waiting_read_and_every_later_one()
    {
        await using var host = await Opener.OpenAsync();
        var buffer = new byte[64];
        var reading = host.ReadAsync(buffer).AsTask();
        Assert.False(reading.IsCompleted);

        Instrument.Unplug();

        Assert.True(await Ended(reading));
        Assert.True(await Ended(host.ReadAsync(buffer).AsTask()));
    }

    [Fact]
    public async Task A_write_after_the_unplug_was_seen_fails_within_its_limit()
    {
        await using var host = await Opener.OpenAsync();
        Instrument.Unplug();
        await ReadUntilEnded(host);

        var writing = host.WriteAsync(new byte[10], TimeSpan.FromMilliseconds(500)).AsTask();

        await Assert.ThrowsAsync<PortLostException>(() => writing.WaitAsync(Deadline));
    }

    [Fact]
    public async Task Writes_after_an_unplug_that_nobody_read_of_end_too()
    {
        await using var host = await Opener.OpenAsync();
        Instrument.Unplug();

        var lost = await Assert.ThrowsAsync<PortLostException>(async () =>
        {
            // The first may still be taken by the system; they cannot all be.
            for (var count = 0; count < 200; count++)
            {
                await host.WriteAsync(new byte[100], TimeSpan.FromSeconds(1)).AsTask().WaitAsync(Deadline);
                await Task.Delay(5);
            }
        });
        Assert.Contains(Opener.Name, lost.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_write_that_the_other_side_does_not_take_fails_at_its_limit()
    {
        await using var host = await Opener.OpenAsync();
        var started = TimeProvider.System.GetTimestamp();

        var writing = host.WriteAsync(new byte[64 << 20], TimeSpan.FromMilliseconds(300)).AsTask();

        await Assert.ThrowsAsync<PortLostException>(() => writing.WaitAsync(Deadline));
        Assert.True(TimeProvider.System.GetElapsedTime(started) >= TimeSpan.FromMilliseconds(290));
        await ReadUntilEnded(host);
    }

    [Fact]
    public async Task A_close_ends_a_waiting_read_at_once()
    {
        await using var host = await Opener.OpenAsync();
        var reading = host.ReadAsync(new byte[64]).AsTask();

        await Task.Run(host.Close).WaitAsync(CloseLimit);

        Assert.True(await Ended(reading.WaitAsync(CloseLimit)));
        Assert.True(await Ended(host.ReadAsync(new byte[64]).AsTask()));
        await Assert.ThrowsAsync<PortLostException>(async () => await host.WriteAsync(new byte[1], Deadline));
    }

    [Fact]
    public async Task A_close_ends_a_waiting_write_at_once()
    {
        await using var host = await Opener.OpenAsync();
        var writing = host.WriteAsync(new byte[64 << 20], Deadline * 10).AsTask();
        await Task.Delay(50);
        Assert.False(writing.IsCompleted);

        await Task.Run(host.Close).WaitAsync(CloseLimit);

        await Assert.ThrowsAsync<PortLostException>(() => writing.WaitAsync(Deadline));
    }

    [Fact]
    public async Task Closing_and_disposing_again_does_nothing()
    {
        var host = await Opener.OpenAsync();
        host.Close();
        host.Close();
        await host.DisposeAsync();
        await host.DisposeAsync();
        host.Close();
    }

    [Fact]
    public async Task After_a_replug_the_same_opener_opens_again()
    {
        for (var round = 0; round < 5; round++)
        {
            await using var host = await Opener.OpenAsync();
            await host.WriteAsync(new[] { (byte)round }, Deadline);
            Assert.Equal(round, (await ReadExactly(Instrument, 1))[0]);

            Instrument.Unplug();
            await ReadUntilEnded(host);
            var missing = await Assert.ThrowsAsync<PortOpenException>(async () => await Opener.OpenAsync());
            Assert.Equal(PortOpenFault.Missing, missing.Fault);
            Instrument.Replug();
        }
    }

    [Fact]
    public async Task The_instruments_read_goes_on_waiting_across_an_unplug()
    {
        var reading = Instrument.ReadAsync(new byte[8]).AsTask();
        await using (await Opener.OpenAsync())
        {
            Instrument.Unplug();
        }

        Assert.False(reading.IsCompleted);
        Instrument.Replug();
        await using var host = await Opener.OpenAsync();
        await host.WriteAsync("ok"u8.ToArray(), Deadline);
        Assert.True(await reading.WaitAsync(Deadline) > 0);
    }

    [Fact]
    public async Task What_was_said_while_nobody_listened_does_not_reach_the_next_host()
    {
        await using (var first = await Opener.OpenAsync())
        {
            await Eventually.Is(() => Instrument.HasHost, () => "The instrument must see a host.");
            await Instrument.WriteAsync("unread"u8.ToArray(), Deadline);
        }

        await Eventually.Is(() => !Instrument.HasHost, () => "The instrument must see that the host left.");
        await Instrument.WriteAsync("to nobody"u8.ToArray(), Deadline);

        await using var host = await Opener.OpenAsync();
        await Eventually.Is(() => Instrument.HasHost, () => "The instrument must see the next host.");
        await Instrument.WriteAsync("fresh"u8.ToArray(), Deadline);
        Assert.Equal("fresh"u8.ToArray(), await ReadExactly(host, 5));
    }
}
