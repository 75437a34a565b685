using System.Runtime.Versioning;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Backups;

/// <summary>Backups of a data folder that is encrypted at rest: with its keys in it, left out of it, and kept elsewhere.</summary>
[SupportedOSPlatform("linux")]
public sealed class KeysElsewhereTests : IDisposable
{
    private readonly BackupFolders folders = new();

    public void Dispose() => folders.Dispose();

    [Fact]
    public async Task With_the_keys_in_it_a_backup_opens_without_anything_else_and_is_encrypted_under_the_same_key()
    {
        await Examined();
        await folders.BackUp();
        await Restored(ExitCode.Done);
        Assert.Equal(await Digest(folders.Data), await Digest(folders.Second));
        var (before, after) = (await MasterKey(folders.Data), await MasterKey(folders.Second));
        Assert.Equal(before.Id, after.Id);
        Assert.True(after.Segments > 0);
    }

    [Fact]
    public async Task After_a_new_master_key_an_older_backup_opens_with_its_own_and_a_newer_one_with_the_new_one()
    {
        await Examined();
        await folders.BackUp();
        var old = await MasterKey(folders.Data);
        await BackupFolders.Seen("protection", "rotate", "--data", folders.Data);
        await folders.BackUp();
        await Restored(ExitCode.Done, "--backup", "1");
        Assert.Equal(old.Id, (await MasterKey(folders.Second)).Id);
        Assert.Equal(await Digest(folders.Data), await Digest(folders.Second));
        Directory.Delete(folders.Second, recursive: true);
        await Restored(ExitCode.Done);
        Assert.NotEqual(old.Id, (await MasterKey(folders.Second)).Id);
        Assert.Equal(await Digest(folders.Data), await Digest(folders.Second));
    }

    [Fact]
    public async Task Without_the_key_that_is_kept_elsewhere_what_is_restored_waits_for_it_and_says_so()
    {
        var key = folders.At("stick", "master.json");
        Directory.CreateDirectory(
            folders.At("stick"),
            UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
        );
        Directory.CreateDirectory(folders.Data);
        var settings = new Dictionary<string, object> { ["Protection"] = new { KeyFile = key } };
        await File.WriteAllTextAsync(
            Path.Combine(folders.Data, "pupilbridge.json"),
            JsonSerializer.Serialize(settings)
        );
        await Examined();
        await folders.BackUp();
        File.Move(key, key + ".away");
        var restored = await Restored(ExitCode.Done);
        Assert.Contains("the exam log could not be built yet", restored.Error, StringComparison.Ordinal);
        var refused = await Executable.Run("exams", "list", "--data", folders.Second);
        Assert.Equal(ExitCode.Storage, refused.Code);
        File.Move(key + ".away", key);
        await BackupFolders.Seen("journal", "rebuild", "--data", folders.Second);
        Assert.Equal(await Digest(folders.Data), await Digest(folders.Second));
    }

    private async Task Examined()
    {
        await using var instrument = new QuayInstrument(folders.At("quay"));
        using var service = await BackupFolders.Serve(folders.Data, instrument);
        await folders.Examined("Q-7001");
        await BackupFolders.Stopped(service);
        // On a busy machine a stop leaves the last entries of the exam log to whoever opens it next; here its content is compared.
        await BackupFolders.Seen("exams", "list", "--data", folders.Data);
    }

    private async Task<Outcome> Restored(ExitCode code, params string[] more)
    {
        var restored = await folders.Restored(more);
        Assert.True(restored.Code == code, $"{restored.Code} {restored.Error}{restored.Out}");
        return restored;
    }

    private static async Task<string> Digest(string data)
    {
        var verified = await BackupFolders.Json("journal", "verify", "--json", "--data", data);
        Assert.True(verified.GetProperty("isSound").GetBoolean());
        return verified.GetProperty("examLog").GetProperty("inExamLog").GetString()!;
    }

    private static async Task<(string Id, int Segments)> MasterKey(string data)
    {
        var status = await BackupFolders.Json("protection", "status", "--json", "--data", data);
        var key = status.GetProperty("masterKeys").EnumerateArray().Single();
        return (key.GetProperty("id").GetString()!, key.GetProperty("opens").GetProperty("journal").GetInt32());
    }
}
