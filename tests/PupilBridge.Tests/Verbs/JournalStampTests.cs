using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary>Time stamps of the journal's head, by an authority of OpenSSL, checked by both.</summary>
public sealed class JournalStampTests : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly OpensslAuthority authority = new();

    public JournalStampTests()
    {
        WrittenJournal.Write(folder.Path, WrittenJournal.Morning);
        Set(authority.Certificates);
    }

    public void Dispose()
    {
        authority.Dispose();
        folder.Dispose();
    }

    private string Token => Directory.GetFiles(folder.At("stamps"), "*.tst").Single();

    [Fact]
    public async Task A_stamp_is_kept_and_both_programs_find_it_good()
    {
        await Stamp();
        OpensslAuthority.Run(
            "ts",
            "-verify",
            "-data",
            Path.ChangeExtension(Token, ".txt"),
            "-in",
            Token,
            "-token_in",
            "-CAfile",
            authority.Certificates
        );
        var stamp = (await Verified()).GetProperty("stamps")[0];
        Assert.True(stamp.GetProperty("isTrusted").GetBoolean());
        Assert.Equal("CN=Quay time", stamp.GetProperty("by").GetString());
        Assert.Equal(JsonValueKind.Null, stamp.GetProperty("trouble").ValueKind);
        // A hash leaves the house, and not the head that it is of.
        var head = await File.ReadAllBytesAsync(Path.ChangeExtension(Token, ".txt"));
        Assert.True(authority.LastRequest.AsSpan().IndexOf(head) < 0);
        Assert.True(authority.LastRequest.Length < 128);
    }

    [Fact]
    public async Task A_stamp_shows_that_the_end_was_cut_off()
    {
        await Stamp();
        Assert.True((await Verified()).GetProperty("journal").GetProperty("isSound").GetBoolean());
        var segment = Directory.GetFiles(folder.At("journal"), "*.pbj").Single();
        var bytes = await File.ReadAllBytesAsync(segment);
        await File.WriteAllBytesAsync(segment, bytes[..256]);
        Assert.False((await Verified()).GetProperty("journal").GetProperty("isSound").GetBoolean());
    }

    [Fact]
    public async Task A_stamp_for_another_head_an_altered_one_and_a_foreign_authority_are_told()
    {
        await Stamp();
        var head = Path.ChangeExtension(Token, ".txt");
        var text = await File.ReadAllTextAsync(head);
        await File.WriteAllTextAsync(head, "3" + text[1..]);
        Assert.Contains("not for this head", await Trouble(), StringComparison.Ordinal);
        await File.WriteAllTextAsync(head, text);
        var token = await File.ReadAllBytesAsync(Token);
        var altered = token.ToArray();
        altered[^10] ^= 1;
        await File.WriteAllBytesAsync(Token, altered);
        Assert.NotEmpty(await Trouble());
        await File.WriteAllBytesAsync(Token, token);
        using var other = new OpensslAuthority();
        Set(other.Certificates);
        Assert.Contains("none of the authorities", await Trouble(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_authority_that_is_down_is_told_and_nothing_is_kept()
    {
        authority.Stop();
        var outcome = await Invoked.Run("journal", "stamp", "--data", folder.Path);
        Assert.Equal(ExitCode.Refused, outcome.Code);
        Assert.Contains(authority.Address, outcome.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.At("stamps")));
        File.Delete(folder.At("pupilbridge.json"));
        var unset = await Invoked.Run("journal", "stamp", "--data", folder.Path);
        Assert.Contains("Stamps:Address", unset.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_service_has_its_head_stamped_by_itself()
    {
        using var service = Executable.Start("serve", "--data", folder.Path, "--port", "memory:none");
        await service.Says("has its time stamp");
        service.Signal("TERM");
        await service.Ended();
        Assert.Equal(1, authority.Requests);
        Assert.Equal(JsonValueKind.Null, (await Verified()).GetProperty("stamps")[0].GetProperty("trouble").ValueKind);
    }

    private void Set(string certificates) =>
        File.WriteAllText(
            folder.At("pupilbridge.json"),
            JsonSerializer.Serialize(
                new Dictionary<string, object> { ["Stamps"] = new { authority.Address, AuthorityFile = certificates } }
            )
        );

    private async Task Stamp()
    {
        var outcome = await Invoked.Run("journal", "stamp", "--data", folder.Path);
        Assert.True(outcome.Code == ExitCode.Done, outcome.Error);
    }

    private async Task<string> Trouble() =>
        (await Verified()).GetProperty("stamps")[0].GetProperty("trouble").GetString() ?? "";

    private async Task<JsonElement> Verified()
    {
        var outcome = await Invoked.Run("journal", "verify", "--json", "--data", folder.Path);
        using var document = JsonDocument.Parse(outcome.Out);
        return document.RootElement.Clone();
    }
}
