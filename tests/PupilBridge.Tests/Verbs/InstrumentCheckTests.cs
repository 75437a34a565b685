using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary>
/// <c>instrument check</c> where it cannot begin; what it finds is tested in virtual time, in PupilBridge.Conformance.Tests.
/// </summary>
public sealed class InstrumentCheckTests
{
    [Theory]
    [InlineData((int)ExitCode.Usage, "No port is named", "instrument", "check")]
    [InlineData((int)ExitCode.Usage, "is not a port", "instrument", "check", "ttyACM0")]
    [InlineData((int)ExitCode.Usage, "--endurance must be", "instrument", "check", "/dev/x", "--endurance", "2")]
    [InlineData((int)ExitCode.Usage, "nobody types here", "instrument", "check", "/dev/x", "--with-person")]
    [InlineData((int)ExitCode.Port, "no-such-port", "instrument", "check", "/dev/no-such-port")]
    public async Task What_cannot_be_is_refused_with_what_to_do(int code, string says, params string[] words)
    {
        var outcome = await Invoked.Run(words);
        Assert.Equal((ExitCode)code, outcome.Code);
        Assert.Contains(says, outcome.Error, StringComparison.Ordinal);
        Assert.Empty(outcome.Out);
    }
}
