using System.Text;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Simulator.Tests.Faults;

public class SerialBitsTests
{
    private static readonly byte[] Line = Encoding.ASCII.GetBytes("BEAT,0123456789ABCDEF,1000,1,0,87*00000000\n");

    [Fact]
    public void At_the_same_speed_every_byte_arrives()
    {
        var all = Enumerable.Range(0, 256).Select(i => (byte)i).ToArray();
        Assert.Equal(all, SerialBits.ReadAt(all, 115_200, 115_200));
    }

    // A UART tolerates about 5 % in all, since it starts anew at each character (common practice).
    [Theory]
    [InlineData(115_200, 117_500)]
    [InlineData(115_200, 112_900)]
    public void Two_percent_off_still_reads(int sent, int read) =>
        Assert.Equal(Line, SerialBits.ReadAt(Line, sent, read));

    [Theory]
    [InlineData(9_600)]
    [InlineData(57_600)]
    [InlineData(230_400)]
    [InlineData(100_000)]
    public void A_wrong_speed_garbles(int read) => Assert.NotEqual(Line, SerialBits.ReadAt(Line, 115_200, read));

    // Worked by hand: 0x55 on the line is 0 10101010 1, ten bits that change each time. Read at half the speed, the receiver
    // takes every second bit from the middle of the first pair on: start at 0, data at bits 3, 5, 7, 9 (all high), then
    // the idle line: 0xFF.
    [Fact]
    public void Half_speed_worked_by_hand() => Assert.Equal([0xFF], SerialBits.ReadAt([0x55], 2, 1));

    // At twice the speed each bit is seen twice: start 0,0; then 0x0F is 1,1,1,1,0,0,0,0 for the bits of the wire. Start bit
    // from 0 to 1 at half a bit a sample: data samples at 0.75 (start, 0), 1.25, 1.75 (1,1), 2.25, 2.75 (1,1), 3.25, 3.75
    // (1,1), 4.25 (1): 0xFE; the stop sample at 4.75 is high. Then the four zeros at 5 to 9: start at 5, data at 5.75 to
    // 8.75 (0 ×7) and 9.25 (high, the stop bit): 0x80; stop at 9.75 high.
    [Fact]
    public void Double_speed_worked_by_hand() => Assert.Equal([0xFE, 0x80], SerialBits.ReadAt([0x0F], 1, 2));

    [Fact]
    public void A_low_stop_bit_is_handed_on_as_a_zero_byte()
    {
        // 0x00 is a start bit and eight low bits; at 10/9.5 of the speed and beyond, a much faster reader sees a break.
        var read = SerialBits.ReadAt([0x00], 1, 4);
        Assert.Equal([0x00], read);
    }

    [Fact]
    public void The_fault_garbles_within_its_episodes_only()
    {
        var episodes = new Episodes(TimeSpan.FromSeconds(5), TimeSpan.FromSeconds(1), new Chance(1, "test"));
        var fault = new WrongBaud(115_200, 9_600, episodes);
        var clean = 0;
        for (var i = 0; i < 600; i++)
        {
            var got = new List<byte>();
            fault.Pass(Line, TimeSpan.FromMilliseconds(100 * i), p => got.AddRange(p));
            clean += got.SequenceEqual(Line) ? 1 : 0;
        }

        Assert.Equal(600 - fault.Fired, clean);
        Assert.InRange(fault.Fired, 60, 140);
    }
}
