using System.Runtime.Versioning;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Backups;

/// <summary>A backup made before a patient was erased: nobody comes back with it unless it is said.</summary>
[SupportedOSPlatform("linux")]
public sealed class ErasedAndRestoredTests : IDisposable
{
    private const string Patient = "Q-7001";
    private readonly BackupFolders folders = new();

    public void Dispose() => folders.Dispose();

    [Fact]
    public async Task An_older_backup_goes_through_the_erasures_that_later_backups_know_of()
    {
        await using var instrument = new QuayInstrument(folders.At("quay"));
        long exam;
        using (var service = await BackupFolders.Serve(folders.Data, instrument))
        {
            exam = await folders.Examined(Patient);
            await folders.Examined("Q-7002");
            await folders.BackUp();
            await folders.Erased(Patient);
            await folders.BackUp();
            await BackupFolders.Stopped(service);
        }

        var restored = await folders.Restored("--backup", "1");
        Assert.Equal(ExitCode.Done, restored.Code);
        Assert.Contains("Erased again", restored.Out, StringComparison.Ordinal);
        Assert.Contains("ordered by DPO (request 17)", restored.Out, StringComparison.Ordinal);
        await IsErasedOnSecond(exam);

        // What was restored is a folder like any other: it serves, and is backed up beside the old course.
        using (var service = await BackupFolders.Serve(folders.Second, instrument))
        {
            await BackupFolders.Stopped(service);
        }

        await BackupFolders.Done(
            "backup",
            folders.Safe,
            "--pass-phrase-file",
            folders.PassPhrase,
            "--data",
            folders.Second
        );
        await IsErasedOnSecond(exam);
        var again = await Executable.Run(
            "patients",
            "erase",
            Patient,
            "--yes",
            "--ordered-by",
            "DPO",
            "--reason",
            "request 17",
            "--who",
            "AD",
            "--data",
            folders.Second
        );
        Assert.Equal(ExitCode.Refused, again.Code);
    }

    [Fact]
    public async Task Where_no_later_backup_knows_of_an_erasure_it_is_said_and_can_be_done_again()
    {
        await using var instrument = new QuayInstrument(folders.At("quay"));
        long exam;
        using (var service = await BackupFolders.Serve(folders.Data, instrument))
        {
            exam = await folders.Examined(Patient);
            await folders.BackUp();
            await folders.Erased(Patient);
            await BackupFolders.Stopped(service);
        }

        var restored = await folders.Restored();
        Assert.Equal(ExitCode.Done, restored.Code);
        Assert.Contains("Erasures that were ordered after", restored.Out, StringComparison.Ordinal);
        Assert.Contains("pupilbridge patients erase", restored.Out, StringComparison.Ordinal);
        Assert.Contains(Patient, await Exams(), StringComparison.Ordinal);
        await folders.Erased(Patient, folders.Second);
        await IsErasedOnSecond(exam);
    }

    [Fact]
    public async Task Keys_that_were_left_out_of_a_backup_and_put_back_from_before_go_through_the_erasure()
    {
        await using var instrument = new QuayInstrument(folders.At("quay"));
        long exam;
        using (var service = await BackupFolders.Serve(folders.Data, instrument))
        {
            exam = await folders.Examined(Patient);
            await BackUpPlain();
            foreach (var keys in (string[])["keys", "subject-keys"])
            {
                Copy(Path.Combine(folders.Data, keys), folders.At("old", keys));
            }

            await folders.Erased(Patient);
            await BackUpPlain();
            await BackupFolders.Stopped(service);
        }

        var restored = await BackupFolders.Done("restore", folders.Safe, "--backup", "1", "--data", folders.Second);
        Assert.Contains("wait in erasures-to-repeat.jsonl", restored.Out, StringComparison.Ordinal);
        foreach (var keys in (string[])["keys", "subject-keys"])
        {
            Copy(folders.At("old", keys), Path.Combine(folders.Second, keys));
        }

        await BackupFolders.Seen("journal", "rebuild", "--data", folders.Second);
        Assert.False(File.Exists(Path.Combine(folders.Second, "erasures-to-repeat.jsonl")));
        await IsErasedOnSecond(exam);
    }

    [Fact]
    public async Task A_later_backup_that_cannot_be_read_is_named()
    {
        await using var instrument = new QuayInstrument(folders.At("quay"));
        using (var service = await BackupFolders.Serve(folders.Data, instrument))
        {
            await folders.Examined(Patient);
            await folders.BackUp();
            await folders.Erased(Patient);
            await folders.BackUp();
            await BackupFolders.Stopped(service);
        }

        var list = await BackupFolders.Json("backup", "list", folders.Safe, "--json");
        Assert.Equal(2, list.GetArrayLength());
        foreach (
            var piece in new DirectoryInfo(Path.Combine(folders.Safe, "pieces"))
                .GetFiles("files-*")
                .OrderBy(file => file.LastWriteTimeUtc)
                .Skip(1)
        )
        {
            piece.Delete();
        }

        var restored = await folders.Restored("--backup", "1");
        Assert.Equal(ExitCode.Damaged, restored.Code);
        Assert.Contains("later backups there cannot be read (2)", restored.Error, StringComparison.Ordinal);
    }

    private async Task IsErasedOnSecond(long exam)
    {
        var exams = await Exams();
        Assert.DoesNotContain(Patient, exams, StringComparison.Ordinal);
        Assert.Contains("erased-", exams, StringComparison.Ordinal);
        var shown = await BackupFolders.Seen("exams", "show", $"{exam}", "--data", folders.Second);
        Assert.Contains("by AD (ordered by DPO: request 17)", shown.Out, StringComparison.Ordinal);
        var journal = await BackupFolders.Seen("journal", "list", "--data", folders.Second);
        Assert.DoesNotContain(Patient, journal.Out, StringComparison.Ordinal);
        await BackupFolders.Seen("journal", "verify", "--data", folders.Second);
    }

    private async Task<string> Exams() =>
        (await BackupFolders.Seen("exams", "list", "--json", "--data", folders.Second)).Out;

    private Task<Outcome> BackUpPlain() =>
        BackupFolders.Done("backup", folders.Safe, "--unencrypted", "--data", folders.Data);

    private static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        foreach (var path in Directory.GetFiles(from))
        {
            File.Copy(path, Path.Combine(to, Path.GetFileName(path)));
        }
    }
}
