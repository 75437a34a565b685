using System.Security.Cryptography;
using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

public sealed class FirstCodeTests
{
    [Fact]
    public void It_has_twelve_letters_that_are_easily_told_apart_in_three_groups()
    {
        using var random = RandomNumberGenerator.Create();
        for (var n = 0; n < 200; n++)
        {
            Assert.Matches("^[A-HJKMNP-Z]{4}-[A-HJKMNP-Z]{4}-[A-HJKMNP-Z]{4}$", FirstCode.Draw(random).Text);
        }
    }

    [Fact]
    public void It_follows_from_its_source_of_chance_alone()
    {
        using var one = new CountingSource(0);
        using var other = new CountingSource(7);
        Assert.Equal("ABCD-EFGH-JKMN", FirstCode.Draw(one).Text);
        Assert.Equal("HJKM-NPQR-STUV", FirstCode.Draw(other).Text);
    }

    [Fact]
    public void Bytes_that_would_make_some_letters_likelier_are_thrown_away()
    {
        // 253 to 255 lie beyond the last whole multiple of 23; after them the count begins anew.
        using var source = new CountingSource(253);
        Assert.Equal("ABCD-EFGH-JKMN", FirstCode.Draw(source).Text);
    }

    [Theory]
    [InlineData("ABCD-EFGH-JKMN", true)]
    [InlineData("abcd efgh jkmn", true)]
    [InlineData(" abcdefghjkmn ", true)]
    [InlineData("ABCD-EFGH-JKM", false)]
    [InlineData("ABCD-EFGH-JKMP", false)]
    [InlineData("", false)]
    public void Capitals_blanks_and_hyphens_do_not_matter_and_everything_else_does(string typed, bool isRight)
    {
        using var source = new CountingSource(0);
        Assert.Equal(isRight, FirstCode.Draw(source).Is(typed));
    }

    private sealed class CountingSource(byte next) : RandomNumberGenerator
    {
        private byte next = next;

        public override void GetBytes(byte[] data)
        {
            for (var i = 0; i < data.Length; i++)
            {
                data[i] = unchecked(next++);
            }
        }
    }
}
