namespace PupilBridge.Ports.Tests;

public abstract partial class PortContract
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task All_byte_values_arrive_unchanged(bool fromInstrument)
    {
        await using var host = await Opener.OpenAsync();
        IPort from = fromInstrument ? Instrument : host;
        IPort to = fromInstrument ? host : Instrument;
        var sent = Enumerable.Range(0, 256).Select(value => (byte)value).ToArray();

        await from.WriteAsync(sent, Deadline);

        Assert.Equal(sent, await ReadExactly(to, sent.Length));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_megabyte_arrives_in_order_whatever_the_sizes_of_pieces(bool fromInstrument)
    {
        await using var host = await Opener.OpenAsync();
        IPort from = fromInstrument ? Instrument : host;
        IPort to = fromInstrument ? host : Instrument;
        var sent = new byte[1 << 20];
        new Random(20261125).NextBytes(sent);

        var reading = ReadExactly(to, sent.Length, Sizes(1));
        await WritePieces(from, sent, Sizes(2)).WaitAsync(Deadline);

        Assert.Equal(sent, await reading);
    }

    [Fact]
    public async Task Both_directions_at_once_do_not_disturb_each_other()
    {
        await using var host = await Opener.OpenAsync();
        var down = new byte[200_000];
        var up = new byte[200_000];
        new Random(1).NextBytes(down);
        new Random(2).NextBytes(up);

        var atInstrument = ReadExactly(Instrument, down.Length, Sizes(3));
        var atHost = ReadExactly(host, up.Length, Sizes(4));
        await Task.WhenAll(WritePieces(host, down, Sizes(5)), WritePieces(Instrument, up, Sizes(6)))
            .WaitAsync(Deadline);

        Assert.Equal(down, await atInstrument);
        Assert.Equal(up, await atHost);
    }

    [Fact]
    public async Task A_line_that_is_read_in_single_bytes_is_whole()
    {
        await using var host = await Opener.OpenAsync();
        await Instrument.WriteAsync("BEAT,0,1,2,3,-*00000000\n"u8.ToArray(), Deadline);
        Assert.Equal("BEAT,0,1,2,3,-*00000000\n"u8.ToArray(), await ReadExactly(host, 24, () => 1));
    }

    [Fact]
    public async Task Writers_that_overlap_do_not_mix_their_bytes()
    {
        await using var host = await Opener.OpenAsync();
        var reading = ReadExactly(Instrument, 8 * 50 * 100);
        await Task.WhenAll(Enumerable.Range(0, 8).Select(writer => Task.Run(() => WriteRuns(host, (byte)writer))));

        var runs = (await reading).Chunk(100).ToList();
        Assert.All(runs, run => Assert.All(run, value => Assert.Equal(run[0], value)));
    }

    [Fact]
    public async Task An_empty_write_does_nothing_and_an_empty_buffer_is_refused()
    {
        await using var host = await Opener.OpenAsync();
        await host.WriteAsync(ReadOnlyMemory<byte>.Empty, Deadline);
        await Assert.ThrowsAsync<ArgumentException>(async () => await host.ReadAsync(Memory<byte>.Empty));
    }

    private static async Task WriteRuns(IPort port, byte value)
    {
        var run = Enumerable.Repeat(value, 100).ToArray();
        for (var count = 0; count < 50; count++)
        {
            await port.WriteAsync(run, Deadline);
        }
    }

    private static Func<int> Sizes(int seed)
    {
        var chance = new Random(seed);
        return () => chance.Next(10) == 0 ? chance.Next(1, 20_000) : chance.Next(1, 300);
    }

    private static async Task WritePieces(IPort port, byte[] bytes, Func<int> size)
    {
        for (var at = 0; at < bytes.Length; )
        {
            var piece = bytes.AsMemory(at, Math.Min(size(), bytes.Length - at));
            await port.WriteAsync(piece, Deadline);
            at += piece.Length;
        }
    }
}
