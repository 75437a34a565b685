using System.Text;

namespace PupilBridge.Journal.Tests.Format;

public sealed class Crc32CTests
{
    // Source: catalogue of parametrised CRC algorithms (RevEng), CRC-32/ISCSI, check value over "123456789".
    [Fact]
    public void The_catalogues_check_value() =>
        Assert.Equal(0xE3069283u, Crc32C.Of(Encoding.ASCII.GetBytes("123456789")));

    // Source: RFC 3720, B.4. The RFC prints the bytes as sent; here they stand as numbers.
    [Fact]
    public void The_vectors_of_RFC_3720()
    {
        byte[] rising = [.. Enumerable.Range(0, 32).Select(i => (byte)i)];
        Assert.Equal(0x8A9136AAu, Crc32C.Of(new byte[32]));
        Assert.Equal(0x62A8AB43u, Crc32C.Of(Enumerable.Repeat((byte)0xFF, 32).ToArray()));
        Assert.Equal(0x46DD794Eu, Crc32C.Of(rising));
        Assert.Equal(0x113FDB5Cu, Crc32C.Of(rising.Reverse().ToArray()));
    }

    // The definition itself, bit by bit: polynomial 1EDC6F41, reflected 82F63B78 (RFC 3720, 12.1).
    [Fact]
    public void Every_length_agrees_with_the_definition()
    {
        var chance = new Random(11);
        for (int length = 0; length < 200; length++)
        {
            byte[] bytes = new byte[length];
            chance.NextBytes(bytes);
            uint crc = uint.MaxValue;
            foreach (byte b in bytes)
            {
                crc ^= b;
                for (int bit = 0; bit < 8; bit++)
                    crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0x82F63B78u;
            }
            Assert.Equal(~crc, Crc32C.Of(bytes));
        }
    }
}
