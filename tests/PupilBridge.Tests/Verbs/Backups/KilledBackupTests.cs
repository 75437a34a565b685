using System.Runtime.Versioning;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Backups;

/// <summary>Backups and restorings that are killed: nothing half-made is ever taken for whole, and the next run completes it.</summary>
[SupportedOSPlatform("linux")]
public sealed class KilledBackupTests : IDisposable
{
    private const int Segments = 4;
    private readonly BackupFolders folders = new();

    public KilledBackupTests()
    {
        // Each start opens a segment, and each is a piece of its own.
        for (var i = 0; i < Segments; i++)
        {
            WrittenJournal.Write(folders.Data, WrittenJournal.Morning.AddHours(i));
        }
    }

    private string Pieces => Path.Combine(folders.Safe, "pieces");

    private string Beside => folders.Second + ".restoring";

    public void Dispose() => folders.Dispose();

    [Fact]
    public async Task A_backup_that_was_killed_is_told_from_a_whole_one_and_the_next_run_completes_it()
    {
        foreach (var kept in (int[])[0, 1, 3])
        {
            await KilledOnce(
                ["backup", folders.Safe, "--pass-phrase-file", folders.PassPhrase, "--data", folders.Data],
                () =>
                    Files(Pieces).Count(name => !name.EndsWith(".part", StringComparison.Ordinal)) > kept
                    || Files(Pieces).Any() && kept == 0
            );
            await NotWhole();
        }

        var completed = await folders.BackUp();
        Assert.Contains("Went on with an interrupted one", completed.Out, StringComparison.Ordinal);
        await BackupFolders.Seen("backup", "verify", folders.Safe, "--pass-phrase-file", folders.PassPhrase);
        var listed = await BackupFolders.Seen("backup", "list", folders.Safe);
        Assert.DoesNotContain("unfinished", listed.Error, StringComparison.Ordinal);
        Assert.Equal(Segments + 1, Files(Pieces).Count());
        Assert.Equal(ExitCode.Done, (await folders.Restored()).Code);
    }

    [Fact]
    public async Task Beside_a_whole_backup_one_that_was_killed_is_named_and_the_whole_one_stays()
    {
        await folders.BackUp();
        WrittenJournal.Write(folders.Data, WrittenJournal.Morning.AddHours(Segments));
        var whole = Files(Pieces).Count();
        await KilledOnce(
            ["backup", folders.Safe, "--pass-phrase-file", folders.PassPhrase, "--data", folders.Data],
            () => Files(Pieces).Count() > whole
        );
        var listed = await BackupFolders.Seen("backup", "list", folders.Safe);
        Assert.Contains("unfinished", listed.Error, StringComparison.Ordinal);
        Assert.Equal(2, listed.Lines.Count);
        await BackupFolders.Seen("backup", "verify", folders.Safe, "--pass-phrase-file", folders.PassPhrase);
        await folders.BackUp();
        Assert.Equal("", (await BackupFolders.Seen("backup", "list", folders.Safe)).Error);
    }

    [Fact]
    public async Task A_restoring_that_was_killed_has_not_the_name_and_the_next_one_completes_it()
    {
        await folders.BackUp();
        foreach (var kept in (int[])[0, 2])
        {
            await KilledOnce(
                ["restore", folders.Safe, "--pass-phrase-file", folders.PassPhrase, "--data", folders.Second],
                () => Files(Path.Combine(Beside, "journal")).Count() > kept
            );
            Assert.False(Directory.Exists(folders.Second));
            Assert.True(Directory.Exists(Beside));
            Assert.True(File.Exists(Beside + ".txt"));
        }

        Assert.Equal(ExitCode.Done, (await folders.Restored()).Code);
        await BackupFolders.Seen("journal", "verify", "--data", folders.Second);
        Assert.False(Directory.Exists(Beside));
        Assert.False(File.Exists(Beside + ".txt"));
    }

    private async Task NotWhole()
    {
        foreach (
            var words in (string[][])
                [
                    ["backup", "list", folders.Safe],
                    ["backup", "verify", folders.Safe],
                    ["restore", folders.Safe, "--pass-phrase-file", folders.PassPhrase, "--data", folders.Second],
                ]
        )
        {
            var refused = await Invoked.Run(words);
            Assert.Equal(ExitCode.NotFound, refused.Code);
            Assert.Contains("only an unfinished one", refused.Error, StringComparison.Ordinal);
        }

        Assert.False(Directory.Exists(folders.Second));
    }

    /// <summary>Kills the program with SIGKILL at the moment in which something is so; that it was still running then is asserted.</summary>
    private static async Task KilledOnce(string[] words, Func<bool> isSo)
    {
        using var running = Executable.Start(words);
        await Eventually.Is(() => Task.FromResult(isSo()));
        running.Signal("KILL");
        Assert.Equal((ExitCode)137, (await running.Ended()).Code);
    }

    private static IEnumerable<string> Files(string folder) =>
        Directory.Exists(folder) ? Directory.GetFiles(folder).Select(path => Path.GetFileName(path)) : [];
}
