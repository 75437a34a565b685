using Microsoft.Extensions.Time.Testing;

namespace PupilBridge.Ports.Tests;

public sealed class LinePaceTests
{
    private readonly FakeTimeProvider time = new();

    [Theory]
    [InlineData(115_200, 120, 10.417)] // 8N1: ten bits a byte
    [InlineData(9_600, 16, 16.667)]
    public void A_byte_takes_ten_bits_of_the_lines_time(int baud, int bytes, double expectedMs)
    {
        Assert.Equal(expectedMs, new LinePace(baud, time).Reserve(bytes).TotalMilliseconds, 0.001);
    }

    [Fact]
    public void Bytes_queue_behind_each_other()
    {
        var pace = new LinePace(9_600, time);
        pace.Reserve(96);
        Assert.Equal(200, pace.Reserve(96).TotalMilliseconds, 0.001);
        time.Advance(TimeSpan.FromMilliseconds(150));
        Assert.Equal(150, pace.Reserve(96).TotalMilliseconds, 0.001);
    }

    [Fact]
    public void A_line_that_was_idle_gives_nothing_for_it_but_a_late_timers_worth()
    {
        var pace = new LinePace(9_600, time);
        time.Advance(TimeSpan.FromHours(1));
        Assert.Equal(80, pace.Reserve(96).TotalMilliseconds, 0.001);
    }

    [Fact]
    public void Without_a_speed_nothing_waits_and_nothing_is_cut()
    {
        var pace = new LinePace(null, time);
        Assert.Equal(TimeSpan.Zero, pace.Reserve(1 << 20));
        Assert.Equal(1 << 20, pace.Piece(1 << 20));
    }

    [Fact]
    public void A_paced_line_goes_in_pieces_of_a_sending_chip()
    {
        Assert.Equal(16, new LinePace(115_200, time).Piece(120));
    }
}
