using System.Runtime.Versioning;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>instrument trace</c> at a simulated instrument on a real pseudo-terminal, and its recordings.</summary>
public sealed class InstrumentTraceTests
{
    [Fact]
    [SupportedOSPlatform("linux")]
    public async Task A_recording_of_a_greeted_instrument_shows_the_same_when_it_is_replayed()
    {
        using var folder = new TemporaryFolder();
        var file = Path.Combine(folder.Path, "lines.txt");
        await using var instrument = new QuayInstrument(Path.Combine(folder.Path, "port"));
        var live = await Invoked.Run(
            "instrument",
            "trace",
            instrument.Port,
            "--greet",
            "--for",
            "2.5",
            "--record",
            file
        );
        Assert.Equal(ExitCode.Done, live.Code);
        Assert.Contains("WHO: host 7ACE0001 asks who is there", live.Out, StringComparison.Ordinal);
        Assert.Contains("serial number QA-1", live.Out, StringComparison.Ordinal);
        Assert.Contains("no block, by the dial", live.Out, StringComparison.Ordinal);
        var replayed = await Invoked.Run("instrument", "trace", "--replay", file);
        Assert.Equal(ExitCode.Done, replayed.Code);
        Assert.Equal(live.Out, replayed.Out);
        Assert.Equal(live.Error, replayed.Error);
    }

    [Fact]
    [SupportedOSPlatform("linux")]
    public async Task Without_a_greeting_nothing_is_said_and_the_heartbeat_is_heard()
    {
        using var folder = new TemporaryFolder();
        await using var instrument = new QuayInstrument(Path.Combine(folder.Path, "port"));
        var outcome = await Invoked.Run("instrument", "trace", instrument.Port, "--for", "2.5");
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains("BEAT: heartbeat of boot", outcome.Out, StringComparison.Ordinal);
        Assert.DoesNotContain(" > ", outcome.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("ID,", outcome.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData((int)ExitCode.Usage, "No port is named", "instrument", "trace")]
    [InlineData((int)ExitCode.Usage, "is not a port", "instrument", "trace", "ttyACM0")]
    [InlineData((int)ExitCode.Usage, "--for must be", "instrument", "trace", "/dev/null", "--for", "0")]
    [InlineData((int)ExitCode.Usage, "do not go with it", "instrument", "trace", "/dev/null", "--replay", "x.txt")]
    [InlineData((int)ExitCode.NotFound, "no-such-file.txt", "instrument", "trace", "--replay", "no-such-file.txt")]
    [InlineData((int)ExitCode.Port, "no-such-port", "instrument", "trace", "/dev/no-such-port")]
    public async Task What_cannot_be_is_refused_with_what_to_do(int code, string says, params string[] words)
    {
        var outcome = await Invoked.Run(words);
        Assert.Equal((ExitCode)code, outcome.Code);
        Assert.Contains(says, outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "the file is empty")]
    [InlineData("0.1 <  A\n", "line 1: a recording begins with")]
    [InlineData("# PupilBridge line recording 1\n0.1 <  A\n0,2 <  A\n", "line 3: it is not seconds")]
    public async Task A_file_that_is_no_recording_is_refused_with_its_line(string content, string says)
    {
        using var folder = new TemporaryFolder();
        var file = Path.Combine(folder.Path, "lines.txt");
        await File.WriteAllTextAsync(file, content);
        var outcome = await Invoked.Run("instrument", "trace", "--replay", file);
        Assert.Equal(ExitCode.Refused, outcome.Code);
        Assert.Contains(says, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_recording_is_never_written_over()
    {
        using var folder = new TemporaryFolder();
        var file = Path.Combine(folder.Path, "lines.txt");
        await File.WriteAllTextAsync(file, "mine");
        var outcome = await Invoked.Run("instrument", "trace", "/dev/null", "--record", file, "--for", "1");
        Assert.NotEqual(ExitCode.Done, outcome.Code);
        Assert.Equal("mine", await File.ReadAllTextAsync(file));
    }
}
