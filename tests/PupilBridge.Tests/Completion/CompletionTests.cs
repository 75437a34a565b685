using System.Diagnostics;
using PupilBridge.CommandLine;
using PupilBridge.Completion;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Completion;

/// <summary>Completion: what the directive offers, and the bash script in a real bash.</summary>
public sealed class CompletionTests
{
    [Theory]
    [InlineData("pupilbridge ", "completion")]
    [InlineData("pupilbridge comp", "completion")]
    [InlineData("pupilbridge completion ", "bash")]
    [InlineData("pupilbridge completion z", "zsh")]
    [InlineData("pupilbridge completion bash --d", "--data")]
    public async Task The_directive_offers_the_next_word(string line, string expected)
    {
        var outcome = await Invoked.Run($"[suggest:{line.Length}]", line);
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains(expected, outcome.Lines);
    }

    [Fact]
    public async Task There_is_a_script_for_each_shell_and_it_asks_the_directive()
    {
        Assert.Equal(["bash", "fish", "pwsh", "zsh"], CompletionScripts.Shells.Order(StringComparer.Ordinal));
        foreach (var shell in CompletionScripts.Shells)
        {
            var outcome = await Invoked.Run("completion", shell);
            Assert.Equal(ExitCode.Done, outcome.Code);
            Assert.Contains("[suggest:", outcome.Out, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_shell_that_is_not_known_is_refused_with_the_list_of_those_that_are()
    {
        var outcome = await Invoked.Run("completion", "abacus");
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains("abacus", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("fish", outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("pupilbridge compl", "completion")]
    [InlineData("pupilbridge completion pw", "pwsh")]
    public async Task Bash_completes_with_the_script(string line, string expected)
    {
        // Bash calls the function of `complete -F` with these variables set; nothing else is simulated.
        var words = line.Split(' ');
        var script = $$"""
            source <(pupilbridge completion bash)
            complete -p pupilbridge >/dev/null || exit 9
            COMP_LINE='{{line}}'; COMP_POINT={{line.Length}}; COMP_WORDS=({{line}}); COMP_CWORD={{words.Length - 1}}
            _pupilbridge
            printf '%s\n' "${COMPREPLY[@]}"
            """;
        var start = new ProcessStartInfo("bash") { RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add(script);
        start.Environment["PATH"] =
            Path.GetDirectoryName(Executable.Path) + ":" + Environment.GetEnvironmentVariable("PATH");
        using var bash = Process.Start(start)!;
        var offered = await bash.StandardOutput.ReadToEndAsync();
        await bash.WaitForExitAsync();
        Assert.Equal(0, bash.ExitCode);
        Assert.Equal(expected, offered.Trim());
    }
}
