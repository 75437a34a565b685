using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.CommandLine;

/// <summary>A word that is not understood brings the one that was probably meant.</summary>
public sealed class NearWordsTests
{
    [Theory]
    [InlineData("jurnal", "'journal'")]
    [InlineData("comfig check", "'config'")]
    [InlineData("journal list --no-tims", "'--no-times'")]
    [InlineData("journal list --dta x", "'--data'")]
    public async Task A_near_word_is_offered(string line, string expected)
    {
        var outcome = await Invoked.Run(line.Split(' '));
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains($"Did you mean {expected}?", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nothing_is_offered_where_nothing_is_near()
    {
        var outcome = await Invoked.Run("hippopotamus");
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.DoesNotContain("Did you mean", outcome.Error, StringComparison.Ordinal);
    }
}
