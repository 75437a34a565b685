using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.CommandLine;

/// <summary>What people mistype: each is refused before anything is touched, names what was wrong, and shows no stack.</summary>
public sealed class BadInputTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("serve --port", "--port")]
    [InlineData("watch --instrument", "--instrument")]
    [InlineData("exams list --limit 0", "1 to 500")]
    [InlineData("exams list --limit many", "many")]
    [InlineData("exams list --day yesterday", "yesterday")]
    [InlineData("exams list --status lost", "ready-for-review")]
    [InlineData("exams show", "exam")]
    [InlineData("exams show nine", "nine")]
    [InlineData("exams chart 9 10", "10")]
    [InlineData("exam", "--help")]
    [InlineData("exam open --patient", "--patient")]
    [InlineData("exam attach --who MK", "patient")]
    [InlineData("exam ready --not-examined everything --who MK", "swing-short")]
    [InlineData("room cosy --who MK", "bright")]
    [InlineData("eye-status middle drops --who MK", "OD")]
    [InlineData("eye-status OD sparkling --who MK", "prosthesis")]
    [InlineData("eye-status OD --who MK", "conditions")]
    [InlineData("grade", "WORDS")]
    [InlineData("grade shape both round --exam nine --who MK", "nine")]
    [InlineData("journal", "--help")]
    [InlineData("journal list --from x", "x")]
    [InlineData("journal list --to y", "y")]
    [InlineData("journal list extra", "extra")]
    [InlineData("config check --set Baud", "KEY=VALUE")]
    [InlineData("completion", "shell")]
    [InlineData("ports everywhere", "everywhere")]
    public async Task It_is_refused_with_a_word_on_what_is_wrong(string line, string expected)
    {
        var outcome = await Invoked.Run([.. line.Split(' '), "--data", folder.At("data")]);
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Empty(outcome.Out);
        Assert.Contains(expected, outcome.Error, StringComparison.Ordinal);
        Assert.Contains("--help", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", outcome.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.At("data")));
    }

    [Theory]
    [InlineData("exam open")]
    [InlineData("exam ready")]
    [InlineData("grade direct OD 3")]
    [InlineData("room dim")]
    [InlineData("eye-status OD drops")]
    public async Task Nobody_enters_anything_without_saying_who(string line)
    {
        var outcome = await Invoked.Run([.. line.Split(' '), "--data", folder.At("data")]);
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains("--who", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("PUPILBRIDGE_WHO", outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("direct OD 9", "no grade")]
    [InlineData("direct nose 3", "no eye")]
    [InlineData("colour OD blue", "nothing that is judged")]
    [InlineData("swing slowly alike", "short")]
    [InlineData("near OD", "the grade")]
    public async Task A_judgement_that_is_none_says_where_it_went_wrong(string words, string expected)
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        var outcome = await Invoked.Run(["grade", .. words.Split(' '), "--who", "MK", "--data", folder.Path]);
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains(expected, outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("exams list")]
    [InlineData("exams show 9")]
    [InlineData("exams chart 9")]
    [InlineData("grade shape OD round --who MK")]
    public async Task A_data_folder_without_a_journal_is_named_and_not_made(string line)
    {
        var outcome = await Invoked.Run([.. line.Split(' '), "--data", folder.At("data")]);
        Assert.Equal(ExitCode.NotFound, outcome.Code);
        Assert.Contains(folder.At("data"), outcome.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.At("data")));
    }

    [Theory]
    [InlineData("exams show 9")]
    [InlineData("exams chart 9")]
    [InlineData("exams show 0")]
    public async Task An_exam_that_does_not_exist_is_not_found(string line)
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        var outcome = await Invoked.Run([.. line.Split(' '), "--data", folder.Path]);
        Assert.Equal(ExitCode.NotFound, outcome.Code);
        Assert.Contains("exams list", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_place_in_the_list_that_is_none_is_refused()
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        var outcome = await Invoked.Run("exams", "list", "--after", "the middle", "--data", folder.Path);
        Assert.Equal(ExitCode.Refused, outcome.Code);
        Assert.Contains("the middle", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_reader_who_has_seen_enough_ends_the_command()
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        var start = new System.Diagnostics.ProcessStartInfo("bash")
        {
            ArgumentList =
            {
                "-c",
                $"for i in 1 2 3; do '{Executable.Path}' config show --data '{folder.Path}'; done | head -n 1; echo ${{PIPESTATUS[0]}}",
            },
            RedirectStandardOutput = true,
        };
        using var bash = System.Diagnostics.Process.Start(start)!;
        var lines = (await bash.StandardOutput.ReadToEndAsync()).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        await bash.WaitForExitAsync();
        Assert.Equal(2, lines.Length);
        Assert.Equal("0", lines[1]);
    }
}
