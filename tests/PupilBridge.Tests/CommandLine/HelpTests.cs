using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.CommandLine;

/// <summary>What every command owes its user, checked for every command in the tree.</summary>
public sealed class HelpTests
{
    public static TheoryData<string> Commands => new(All(CommandTree.Build()).Select(Runner.FullName));

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Help_says_what_it_does_gives_an_example_and_lists_the_exit_codes(string command)
    {
        var outcome = await Invoked.Run([.. command.Split(' ').Skip(1), "--help"]);
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Empty(outcome.Error);
        Assert.Contains("Description:", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("--data <DIR>", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("Example", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("Exit codes:", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("  0  done as asked", outcome.Out, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public void Each_example_is_a_command_line_that_is_understood(string command)
    {
        var verb = All(CommandTree.Build()).Single(v => Runner.FullName(v) == command);
        Assert.NotEmpty(verb.Examples);
        foreach (var example in verb.Examples)
        {
            var line = OwnPart(example.Line);
            var parsed = CommandTree.Build().Parse(line);
            Assert.True(
                parsed.Errors.Count == 0,
                $"{example.Line}: {string.Join("; ", parsed.Errors.Select(e => e.Message))}"
            );
            Assert.StartsWith(command, Runner.FullName(parsed.CommandResult.Command), StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task An_option_that_does_not_exist_is_named_and_help_is_pointed_to(string command)
    {
        var outcome = await Invoked.Run([.. command.Split(' ').Skip(1), "--no-such-option"]);
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Empty(outcome.Out);
        Assert.Contains("--help", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", outcome.Error, StringComparison.Ordinal);
    }

    /// <summary>The part of an example that is this program's: without pipes, redirections and the shell's own words.</summary>
    private static string[] OwnPart(string line)
    {
        var start = line.IndexOf("pupilbridge", StringComparison.Ordinal);
        var own = line[start..].Split('|', '>', ')')[0].Trim();
        return [.. System.CommandLine.Parsing.CommandLineParser.SplitCommandLine(own).Skip(1)];
    }

    private static IEnumerable<Verb> All(Command from) =>
        from.Subcommands.OfType<Verb>().SelectMany(verb => All(verb).Prepend(verb));
}
