namespace PupilBridge.Journal.Tests.Format;

public sealed class ChainHashTests
{
    private const string Abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

    // Source: FIPS 180-4's example for SHA-256, one-block message "abc" (NIST, Examples with Intermediate Values).
    [Fact]
    public void The_example_of_FIPS_180_4() => Assert.Equal(Abc, ChainHash.Of("abc"u8).ToString());

    [Fact]
    public void It_is_read_as_it_is_written()
    {
        ChainHash hash = ChainHash.Of("abc"u8);
        byte[] bytes = new byte[ChainHash.ByteCount];
        hash.Write(bytes);
        Assert.Equal(Abc, Convert.ToHexStringLower(bytes));
        Assert.Equal(hash, ChainHash.Read(bytes));
    }

    [Fact]
    public void A_person_may_copy_it_in_groups_and_in_capitals()
    {
        string copied = string.Join(' ', Abc.ToUpperInvariant().Chunk(8).Select(c => new string(c))) + "\n";
        Assert.True(ChainHash.TryParse(copied, out ChainHash hash));
        Assert.Equal(ChainHash.Of("abc"u8), hash);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("ba78")]
    [InlineData("xa7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    public void What_is_no_hash_is_refused(string? text) => Assert.False(ChainHash.TryParse(text, out _));
}
