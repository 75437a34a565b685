using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>journal list</c>: what is in the journal, line by line.</summary>
public sealed class JournalListTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Each_record_is_one_json_object_with_sequence_and_kind()
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        var outcome = await Invoked.Run("journal", "list", "--data", folder.Path);
        Assert.Equal(ExitCode.Done, outcome.Code);
        var records = outcome.Lines.Select(line => JsonDocument.Parse(line).RootElement).ToList();
        Assert.Equal([1L, 2, 3, 4], records.Select(record => record.GetProperty("sequence").GetInt64()));
        Assert.Equal(
            ["service-started", "line-changed", "instrument-reported", "clean-stop"],
            records.Select(record => record.GetProperty("kind").GetString())
        );
        Assert.Equal("2026-03-02T08:00:00.000Z", records[0].GetProperty("entry").GetProperty("at").GetString());
        Assert.Equal("QA-7", records[1].GetProperty("entry").GetProperty("serial").GetString());
        Assert.Equal("connected", records[1].GetProperty("entry").GetProperty("state").GetString());
        Assert.Equal("00000000000000FE", records[2].GetProperty("entry").GetProperty("boot").GetString());
    }

    [Fact]
    public async Task Without_times_two_runs_of_the_same_content_print_the_same()
    {
        WrittenJournal.Write(folder.At("one"), WrittenJournal.Morning);
        WrittenJournal.Write(folder.At("two"), WrittenJournal.Morning.AddDays(3).AddMilliseconds(417));
        WrittenJournal.Write(folder.At("other"), WrittenJournal.Morning, reason: "another reason");
        var one = await Listed("one", "--no-times");
        Assert.Equal(one, await Listed("two", "--no-times"));
        Assert.NotEqual(one, await Listed("other", "--no-times"));
        Assert.NotEqual(await Listed("one"), await Listed("two"));
        Assert.DoesNotContain("2026", one, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_range_prints_only_that()
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        var outcome = await Invoked.Run("journal", "list", "--data", folder.Path, "--from", "2", "--to", "2");
        Assert.Single(outcome.Lines);
        Assert.Contains("\"sequence\":2,", outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_without_a_journal_is_named()
    {
        var outcome = await Invoked.Run("journal", "list", "--data", folder.At("nothing"));
        Assert.Equal(ExitCode.NotFound, outcome.Code);
        Assert.Contains(folder.At("nothing"), outcome.Error, StringComparison.Ordinal);
        Assert.Contains("--data", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_first_sequence_below_one_is_refused()
    {
        var outcome = await Invoked.Run("journal", "list", "--data", folder.Path, "--from", "0");
        Assert.Equal(ExitCode.Usage, outcome.Code);
    }

    private async Task<string> Listed(string run, params string[] more)
    {
        var outcome = await Invoked.Run(["journal", "list", "--data", folder.At(run), .. more]);
        Assert.Equal(ExitCode.Done, outcome.Code);
        return outcome.Out;
    }
}
