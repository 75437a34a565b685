using System.Security.Cryptography;
using System.Text;

namespace PupilBridge.ExamLog.Tests.Digest;

public class ContentDigestTests
{
    [Fact]
    public void One_document_gives_its_sha256()
    {
        // FIPS 180-4, and the example of its validation suite: SHA-256 of "abc".
        var sum = new ContentDigest.Sum();
        sum.Add("abc"u8);

        Assert.Equal("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", sum.Result().Value);
        Assert.Equal(1, sum.Result().Documents);
    }

    [Fact]
    public void The_order_does_not_matter_and_each_document_counts()
    {
        var one = new ContentDigest.Sum();
        one.Add("a"u8);
        one.Add("b"u8);
        one.Add("b"u8);
        var other = new ContentDigest.Sum();
        other.Add("b"u8);
        other.Add("a"u8);
        other.Add("b"u8);
        var fewer = new ContentDigest.Sum();
        fewer.Add("a"u8);

        Assert.Equal(one.Result(), other.Result());
        Assert.NotEqual(one.Result().Value, fewer.Result().Value);
    }

    [Fact]
    public void The_sum_wraps_at_two_to_the_256_and_stays_64_digits()
    {
        var sum = new ContentDigest.Sum();
        for (var i = 0; i < 1000; i++)
        {
            sum.Add(SHA256.HashData(Encoding.ASCII.GetBytes($"{i}")));
            Assert.Equal(64, sum.Result().Value.Length);
        }
    }

    [Fact]
    public void Parts_of_a_document_do_not_run_into_each_other()
    {
        Assert.NotEqual(
            new DocumentBytes().Add("ab").Add("c").Written.ToArray(),
            new DocumentBytes().Add("a").Add("bc").Written.ToArray()
        );
        Assert.NotEqual(
            new DocumentBytes().Add((string?)null).Written.ToArray(),
            new DocumentBytes().Add("").Written.ToArray()
        );
    }
}
