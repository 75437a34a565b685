using System.Security.Cryptography;

namespace PupilBridge.Keys.Tests;

/// <summary>
/// The library's key wrapping against the two examples of RFC 5649, section 6, and ours against the library's.
/// </summary>
public sealed class KeyWrapVectorTests
{
    private const string Kek = "5840df6e29b02af1ab493b705bf16ea1ae8338f4dcc176a8";

    [Theory]
    [InlineData(
        "c37b7e6492584340bed12207808941155068f738",
        "138bdeaa9b8fa7fc61f97742e72248ee5ae6ae5360d1ae6a5f54f373fa543b6a"
    )]
    [InlineData("466f7250617369", "afbeb0f07dfbf5419200f2ccb50bb24f")]
    public void The_examples_of_the_standard(string key, string wrapped)
    {
        using var aes = Aes.Create();
        aes.Key = Convert.FromHexString(Kek);
        Assert.Equal(wrapped, Convert.ToHexStringLower(aes.EncryptKeyWrapPadded(Convert.FromHexString(key))));
        Assert.Equal(key, Convert.ToHexStringLower(aes.DecryptKeyWrapPadded(Convert.FromHexString(wrapped))));
    }

    [Fact]
    public void A_wrapped_key_is_a_version_the_master_keys_name_and_the_standards_wrapping()
    {
        var secret = Enumerable.Range(1, 32).Select(n => (byte)n).ToArray();
        var ring = new KeyRing(new MasterKeyId(0x0102030405060708), [TestKeys.Master(0x0102030405060708, secret)]);
        var data = Enumerable.Range(100, 32).Select(n => (byte)n).ToArray();

        var wrapped = ring.Wrap(data);

        using var aes = Aes.Create();
        aes.Key = secret;
        Assert.Equal("010102030405060708", Convert.ToHexStringLower(wrapped.AsSpan(0, 9)));
        Assert.Equal(aes.EncryptKeyWrapPadded(data), wrapped[9..]);
        Assert.Equal(49, wrapped.Length);
    }
}
