using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>journal verify</c> and <c>journal rebuild</c> on data folders without a service.</summary>
public sealed class JournalVerifyTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_sound_journal_and_its_exam_log_pass_and_the_head_is_printed()
    {
        await MakeSound();
        var outcome = await Invoked.Run("journal", "verify", "--data", folder.Path);
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains("The journal is sound: 4 records", outcome.Out, StringComparison.Ordinal);
        var head = outcome.Lines.Single(line => line.StartsWith("Head", StringComparison.Ordinal)).Split(": ")[1];
        var again = await Invoked.Run("journal", "verify", "--data", folder.Path, "--head", head);
        Assert.Equal(ExitCode.Done, again.Code);
    }

    [Fact]
    public async Task Another_head_than_the_one_written_down_is_damage()
    {
        await MakeSound();
        var other = "4:" + new string('a', 64);
        var outcome = await Invoked.Run("journal", "verify", "--data", folder.Path, "--head", other);
        Assert.Equal(ExitCode.Damaged, outcome.Code);
        Assert.Contains("written down elsewhere", outcome.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("4")]
    [InlineData("x:00")]
    [InlineData("4:zz")]
    public async Task A_head_that_is_none_is_refused(string head)
    {
        await MakeSound();
        var outcome = await Invoked.Run("journal", "verify", "--data", folder.Path, "--head", head);
        Assert.Equal(ExitCode.Usage, outcome.Code);
    }

    [Fact]
    public async Task A_flipped_bit_is_found_and_its_file_is_named()
    {
        await MakeSound();
        var segment = Directory.GetFiles(folder.At("journal")).Order(StringComparer.Ordinal).First();
        var bytes = await File.ReadAllBytesAsync(segment);
        var at = bytes.AsSpan().IndexOf("first plugging in"u8);
        bytes[at] ^= 1;
        await File.WriteAllBytesAsync(segment, bytes);
        var outcome = await Invoked.Run("journal", "verify", "--data", folder.Path);
        Assert.Equal(ExitCode.Damaged, outcome.Code);
        Assert.Contains("DAMAGE", outcome.Out, StringComparison.Ordinal);
        Assert.Contains(Path.GetFileName(segment), outcome.Out, StringComparison.Ordinal);
        var json = await Invoked.Run("journal", "verify", "--json", "--data", folder.Path);
        using var document = JsonDocument.Parse(json.Out);
        Assert.False(document.RootElement.GetProperty("isSound").GetBoolean());
        var listed = await Invoked.Run("journal", "list", "--data", folder.Path);
        Assert.Equal(ExitCode.Damaged, listed.Code);
    }

    [Fact]
    public async Task A_journal_whose_end_was_cut_off_is_told_by_the_exam_log()
    {
        await MakeSound();
        var segment = Directory.GetFiles(folder.At("journal")).Single();
        var bytes = await File.ReadAllBytesAsync(segment);
        await File.WriteAllBytesAsync(segment, bytes[..bytes.AsSpan().IndexOf("first plugging in"u8)]);
        var outcome = await Invoked.Run("journal", "verify", "--data", folder.Path);
        Assert.Equal(ExitCode.Damaged, outcome.Code);
        Assert.Contains("the journal's end is missing", outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_damaged_exam_log_is_told_and_rebuilt_and_passes_again()
    {
        await MakeSound();
        var file = Path.Combine(folder.At("examlog"), "exams.db");
        await File.WriteAllBytesAsync(file, new byte[8192]);
        var broken = await Invoked.Run("journal", "verify", "--data", folder.Path);
        Assert.Equal(ExitCode.Damaged, broken.Code);
        Assert.Contains("journal rebuild", broken.Error, StringComparison.Ordinal);
        var rebuilt = await Invoked.Run("journal", "rebuild", "--data", folder.Path);
        Assert.Equal(ExitCode.Done, rebuilt.Code);
        Assert.Contains("kept in", rebuilt.Out, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await Invoked.Run("journal", "verify", "--data", folder.Path)).Code);
    }

    [Theory]
    [InlineData("verify")]
    [InlineData("rebuild")]
    public async Task A_folder_without_a_journal_is_named(string verb)
    {
        var outcome = await Invoked.Run("journal", verb, "--data", folder.At("nothing"));
        Assert.Equal(ExitCode.NotFound, outcome.Code);
        Assert.Contains(folder.At("nothing"), outcome.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.At("nothing")));
    }

    private async Task MakeSound()
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        Assert.Equal(ExitCode.Done, (await Invoked.Run("journal", "rebuild", "--data", folder.Path)).Code);
    }
}
