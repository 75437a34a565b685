using System.Globalization;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary><c>journal head</c>, and the forms in which <c>journal verify</c> takes a head back.</summary>
public sealed class JournalHeadTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public JournalHeadTests() => WrittenJournal.Write(folder.Path, WrittenJournal.Morning);

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task It_is_the_head_that_verifying_finds_grouped_for_reading_aloud()
    {
        var (sequence, chain) = await Head();
        var verified = await Verify();
        Assert.Contains(
            string.Create(CultureInfo.InvariantCulture, $"{sequence}:{chain}"),
            verified.Out,
            StringComparison.Ordinal
        );
        var spoken = await Invoked.Run("journal", "head", "--data", folder.Path);
        var lines = spoken.Lines.Select(line => line.Trim()).ToArray();
        Assert.Equal("sequence  4", lines[1]);
        Assert.Equal(chain, (lines[2]["chain".Length..] + lines[3]).Replace(" ", "", StringComparison.Ordinal));
        Assert.Equal(
            16,
            (lines[2]["chain".Length..] + " " + lines[3]).Split(' ', StringSplitOptions.RemoveEmptyEntries).Length
        );
    }

    [Fact]
    public async Task It_is_taken_back_as_paper_and_screen_give_it()
    {
        var (_, chain) = await Head();
        var grouped = string.Join(' ', chain.Chunk(4).Select(group => new string(group)));
        foreach (
            var form in (string[])
                [
                    $"4:{chain}",
                    $"4: {chain.ToUpperInvariant()}",
                    $" 4 : {grouped}\n",
                    $"4:{chain[..40]}\u00AD\n\u00A0{chain[40..]}",
                ]
        )
        {
            Assert.DoesNotContain(
                "written down elsewhere",
                (await Verify("--head", form)).Out.Split("Head,")[0],
                StringComparison.Ordinal
            );
        }

        var other = await Verify("--head", $"3:{chain}");
        Assert.Contains("sequence 3 with the chain value", other.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--json")]
    [InlineData("--force")]
    public async Task A_file_that_was_kept_elsewhere_is_taken_back(string form)
    {
        var file = folder.At("kept.txt");
        Assert.Equal(
            ExitCode.Done,
            (await Invoked.Run("journal", "head", form, "--out", file, "--data", folder.Path)).Code
        );
        var sound = await Verify("--json", "--head-file", file);
        using var document = JsonDocument.Parse(sound.Out);
        Assert.True(document.RootElement.GetProperty("journal").GetProperty("isSound").GetBoolean());
        await File.WriteAllTextAsync(
            file,
            (await File.ReadAllTextAsync(file)).Replace("4:", "3:", StringComparison.Ordinal)
        );
        Assert.Contains(
            "sequence 3 with the chain value",
            (await Verify("--head-file", file)).Out,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_file_without_a_head_and_a_file_that_is_not_there_are_refused()
    {
        await File.WriteAllTextAsync(folder.At("other.txt"), "4:abc");
        Assert.Equal(ExitCode.Usage, (await Verify("--head-file", folder.At("other.txt"))).Code);
        Assert.Equal(ExitCode.NotFound, (await Verify("--head-file", folder.At("none.txt"))).Code);
    }

    [Fact]
    public async Task A_damaged_end_has_no_head()
    {
        var segment = Directory.GetFiles(folder.At("journal")).Single();
        var bytes = await File.ReadAllBytesAsync(segment);
        bytes[bytes.AsSpan().IndexOf("first plugging in"u8)] ^= 1;
        await File.WriteAllBytesAsync(segment, bytes);
        var outcome = await Invoked.Run("journal", "head", "--data", folder.Path);
        Assert.Equal(ExitCode.Damaged, outcome.Code);
        Assert.Contains("journal verify", outcome.Error, StringComparison.Ordinal);
    }

    private Task<Outcome> Verify(params string[] words) =>
        Invoked.Run(["journal", "verify", "--data", folder.Path, .. words]);

    private async Task<(long Sequence, string Chain)> Head()
    {
        var outcome = await Invoked.Run("journal", "head", "--json", "--data", folder.Path);
        Assert.Equal(ExitCode.Done, outcome.Code);
        using var document = JsonDocument.Parse(outcome.Out);
        return (
            document.RootElement.GetProperty("sequence").GetInt64(),
            document.RootElement.GetProperty("chain").GetString()!
        );
    }
}
