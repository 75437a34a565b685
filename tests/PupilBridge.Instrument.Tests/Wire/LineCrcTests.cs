using System.Text;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Wire;

public class LineCrcTests
{
    // Source of the first: Greg Cook, Catalogue of parametrised CRC algorithms (RevEng), CRC-32/ISO-HDLC, check value.
    // The other two follow from the same parameters; recomputed bit by bit below.
    [Theory]
    [InlineData("123456789", 0xCBF43926)]
    [InlineData("", 0x00000000)]
    [InlineData("A", 0xD3D99E8B)]
    public void It_is_the_catalogues_algorithm(string text, uint expected)
    {
        Assert.Equal(expected, LineCrc.Of(Encoding.ASCII.GetBytes(text)));
        Assert.Equal(expected, BitByBit(Encoding.ASCII.GetBytes(text)));
    }

    // The library changes its way of computing with the length: all lengths that a line can have.
    [Fact]
    public void It_agrees_with_the_definition_at_every_length_of_a_line()
    {
        var random = new Random(20_31);
        for (var length = 0; length <= WireLimits.MaxLineBytes; length++)
        {
            var bytes = new byte[length];
            random.NextBytes(bytes);
            Assert.Equal(BitByBit(bytes), LineCrc.Of(bytes));
        }
    }

    private static uint BitByBit(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
                crc = (crc >> 1) ^ ((crc & 1) * 0xEDB88320u);
        }

        return ~crc;
    }
}
