using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Demo;

/// <summary>The demo as a process of its own, over a real pseudo-terminal.</summary>
public sealed class DemoTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_whole_exam_stands_on_the_terminal_and_in_the_log()
    {
        var outcome = await Executable.Run("demo", "--pace", "400", "--data", folder.Path);
        Assert.Equal(ExitCode.Done, outcome.Code);
        string[] expected =
        [
            "size, bright",
            "size, dim",
            "mm, uncalibrated",
            "shape",
            "direct",
            "swing short",
            "swing long",
        ];
        Assert.All(expected, text => Assert.Contains(text, outcome.Out, StringComparison.Ordinal));
        Assert.Contains("no diagnosis", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("400 times faster", outcome.Error, StringComparison.Ordinal);
        var data = Assert.Single(Directory.GetDirectories(folder.Path));
        Assert.Contains($"Stored in {data}", outcome.Out, StringComparison.Ordinal);
        var verified = await Invoked.Run("journal", "verify", "--data", data);
        Assert.Equal(ExitCode.Done, verified.Code);
        var listed = await Invoked.Run("exams", "list", "--json", "--data", data);
        using var document = JsonDocument.Parse(listed.Out);
        var exam = Assert.Single(document.RootElement.GetProperty("exams").EnumerateArray());
        Assert.Equal("ready-for-review", exam.GetProperty("status").GetString());
    }

    [Theory]
    [InlineData("Quay-A")]
    [InlineData("Quay-B")]
    public async Task The_same_seed_gives_the_same_journal_and_another_seed_another_one(string model)
    {
        var once = await Journal("once", "--seed", "7", "--model", model, "--pace", "400");
        Assert.Equal(once, await Journal("twice", "--seed", "7", "--model", model, "--pace", "60"));
        Assert.NotEqual(once, await Journal("other", "--seed", "8", "--model", model, "--pace", "400"));
    }

    [Fact]
    public async Task The_exam_as_json_can_be_read_by_a_program()
    {
        var outcome = await Executable.Run(
            "demo",
            "--scenario",
            "right-rapd-marked",
            "--pace",
            "400",
            "--json",
            "--data",
            folder.Path
        );
        Assert.Equal(ExitCode.Done, outcome.Code);
        using var document = JsonDocument.Parse(outcome.Out);
        Assert.Equal("right-rapd-marked", document.RootElement.GetProperty("scenario").GetString());
        var exam = document.RootElement.GetProperty("exam");
        Assert.True(exam.GetProperty("sizes").GetArrayLength() >= 4);
        Assert.Contains("RAPD", exam.GetProperty("chart").GetProperty("block").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_stays_when_it_is_told_to_and_other_commands_reach_it()
    {
        using var demo = Executable.Start("demo", "--stay", "--pace", "400", "--data", folder.Path);
        await demo.Says("The service stays up");
        var data = Assert.Single(Directory.GetDirectories(folder.Path));
        using var watch = Executable.Start("watch", "--json", "--data", data);
        await watch.Says("\"mode\":\"idle\"");
        watch.Signal("INT");
        await watch.Ended();
        demo.Signal("INT");
        var outcome = await demo.Ended();
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains("Stored in", outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Ctrl_C_in_the_middle_ends_it_and_leaves_a_sound_journal()
    {
        using var demo = Executable.Start("demo", "--pace", "1", "--data", folder.Path);
        await demo.Says("opened     exam");
        demo.Signal("INT");
        var outcome = await demo.Ended();
        Assert.Equal(ExitCode.Interrupted, outcome.Code);
        var data = Assert.Single(Directory.GetDirectories(folder.Path));
        Assert.Equal(ExitCode.Done, (await Invoked.Run("journal", "verify", "--data", data)).Code);
    }

    [Theory]
    [InlineData("--pace", "0")]
    [InlineData("--pace", "fast")]
    [InlineData("--seed", "x")]
    [InlineData("--scenario", "nobody")]
    [InlineData("--model", "Quay-Z")]
    public async Task Impossible_values_are_named(string option, string value)
    {
        var outcome = await Invoked.Run("demo", option, value, "--data", folder.Path);
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains(value, outcome.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.Path));
    }

    private async Task<string> Journal(string run, params string[] words)
    {
        var parent = folder.At(run);
        var outcome = await Executable.Run(["demo", "--data", parent, .. words]);
        Assert.True(outcome.Code == ExitCode.Done, outcome.Error);
        var data = Assert.Single(Directory.GetDirectories(parent));
        var listed = await Invoked.Run("journal", "list", "--no-times", "--data", data);
        Assert.Equal(ExitCode.Done, listed.Code);
        Assert.True(listed.Lines.Count > 60, $"Only {listed.Lines.Count} records.");
        return listed.Out;
    }
}
