using System.Text;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Keys.Files;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Protection;

/// <summary>Encryption at rest as the commands see it, on a data folder without a service.</summary>
public sealed class ProtectionTests : IDisposable
{
    private static readonly string[] Secrets = ["Testname", "testname", "Q-1001"];
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task What_a_patient_is_called_stands_in_no_file_of_an_encrypted_folder(bool encrypt)
    {
        Write(encrypt);
        // Exam log, index and whatever else is made from the journal.
        Assert.Equal(ExitCode.Done, (await Run("journal", "rebuild")).Code);
        Assert.Equal(ExitCode.Done, (await Run("journal", "verify")).Code);

        var found = Directory
            .EnumerateFiles(folder.Path, "*", SearchOption.AllDirectories)
            .Where(path => Secrets.Any(secret => Holds(path, secret)))
            .Select(path => Path.GetRelativePath(folder.Path, path))
            .Order(StringComparer.Ordinal);

        Assert.Equal(encrypt ? [] : ["examlog/exams.db", "journal/segment-0000000001.pbj"], found);
        Assert.Contains("Testname", (await Run("journal", "list")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task After_a_rotation_the_new_key_opens_everything_and_the_old_file_nothing()
    {
        Write(encrypt: true);
        await Run("journal", "rebuild");
        Assert.Equal(ExitCode.Done, (await Run("exams", "list")).Code);
        var file = folder.At("keys", "master.json");
        var old = await File.ReadAllBytesAsync(file);
        var before = await Status();

        var outcome = await Run("protection", "rotate");

        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains("3 keys are wrapped", outcome.Out, StringComparison.Ordinal);
        Assert.Contains($"{before.Key} was dropped", outcome.Out, StringComparison.Ordinal);
        var after = await Status();
        Assert.NotEqual(before.Key, after.Key);
        Assert.Equal((1, 1, 1), (after.Journal, after.ExamLog, after.Audit));
        var listed = await Run("audit", "list", "--json");
        Assert.Equal(ExitCode.Done, listed.Code);
        Assert.Contains("\"exams\"", listed.Out, StringComparison.Ordinal);
        Assert.Contains(
            "Audit trail: 2 of 2 segments",
            (await Run("protection", "status")).Out,
            StringComparison.Ordinal
        );
        Assert.Equal(ExitCode.Done, (await Run("journal", "verify")).Code);

        await File.WriteAllBytesAsync(file, old);
        var refused = await Run("journal", "list");
        Assert.Equal(ExitCode.Storage, refused.Code);
        Assert.Contains("segment-0000000001.pbj", refused.Error, StringComparison.Ordinal);
        Assert.Contains(after.Key, refused.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Storage, (await Run("protection", "status")).Code);
    }

    [Fact]
    public async Task A_key_file_that_others_can_read_is_refused_with_what_to_do()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // There are no such modes.
        }

        Write(encrypt: true);
        var file = folder.At("keys", "master.json");
        File.SetUnixFileMode(file, File.GetUnixFileMode(file) | UnixFileMode.OtherRead);
        var refused = await Run("journal", "list");
        Assert.Equal(ExitCode.Storage, refused.Code);
        Assert.Contains($"chmod 600 {file}", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_service_whose_key_file_was_lost_does_not_start_and_makes_no_new_one()
    {
        Write(encrypt: true);
        var file = folder.At("keys", "master.json");
        File.Delete(file);
        var refused = await Run("serve", "--set", "Web:Enabled=false", "--port", "tcp:127.0.0.1:1");
        Assert.Equal(ExitCode.Storage, refused.Code);
        Assert.Contains(file, refused.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(file));
    }

    private Task<Outcome> Run(params string[] words) => Invoked.Run([.. words, "--data", folder.Path]);

    private async Task<(string Key, int Journal, int ExamLog, int Audit)> Status()
    {
        var outcome = await Run("protection", "status", "--json");
        Assert.Equal(ExitCode.Done, outcome.Code);
        var key = JsonDocument.Parse(outcome.Out).RootElement.GetProperty("masterKeys").EnumerateArray().Single();
        var opens = key.GetProperty("opens");
        return (
            key.GetProperty("id").GetString()!,
            opens.GetProperty("journal").GetInt32(),
            opens.GetProperty("exam log").GetInt32(),
            opens.GetProperty("audit trail").GetInt32()
        );
    }

    private void Write(bool encrypt)
    {
        var file = MasterKeyFile.Own(folder.At("keys", "master.json"));
        var journal = new JournalFolder(folder.Path) { Keys = encrypt ? file.ReadOrCreate(TimeProvider.System) : null };
        using var writer = JournalWriter.Open(
            RealDisk.Instance,
            new JournalOptions { Folder = journal, Encrypt = encrypt }
        );
        writer.Append(
            EntryCodec.Encode(
                new PatientEntered
                {
                    Id = EntryId.From(Guid.NewGuid()),
                    Who = new("MK"),
                    At = UtcTime.From(WrittenJournal.Morning),
                    ProgramVersion = "0.1.0",
                    Patient = new("Q-1001"),
                    Details = new() { Name = "Quay Testname", BirthDate = null },
                }
            )
        );
        Assert.True(writer.StopCleanly().IsDurable);
    }

    private static bool Holds(string path, string text)
    {
        var bytes = File.ReadAllBytes(path);
        return bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0
            || bytes.AsSpan().IndexOf(Encoding.Unicode.GetBytes(text)) >= 0;
    }
}
