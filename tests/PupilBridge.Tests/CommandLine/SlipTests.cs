using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.CommandLine;

/// <summary>What a person is told whose command line cannot be read.</summary>
public sealed class SlipTests
{
    [Theory]
    [InlineData("exams list --day x", "a day is expected, written YYYY-MM-DD")]
    [InlineData("exams list --limit x", "a whole number is expected")]
    [InlineData("exams show abc", "a whole number is expected")]
    [InlineData("room dim --exam x", "a whole number is expected")]
    [InlineData("journal list --to x", "a whole number is expected")]
    [InlineData("demo --seed x", "a whole number is expected")]
    [InlineData("demo --pace x", "a number is expected")]
    public async Task A_slip_is_named_in_a_persons_words(string line, string expected)
    {
        var outcome = await Invoked.Run(line.Split(' '));
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains(expected, outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("System.", outcome.Error, StringComparison.Ordinal);
    }
}
