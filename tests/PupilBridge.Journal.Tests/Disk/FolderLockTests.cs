using System.Diagnostics;

namespace PupilBridge.Journal.Tests.Disk;

public sealed class FolderLockTests : IDisposable
{
    private readonly TempJournal _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void A_second_writer_is_refused_with_the_folder_and_the_process_that_holds_it()
    {
        using JournalWriter first = _temp.Open();
        Assert.True(RealDisk.Instance.IsLocked(_temp.Folder));

        JournalLockedException refused = Assert.Throws<JournalLockedException>(_temp.Open);

        Assert.Equal(Environment.ProcessId, refused.HolderProcessId);
        Assert.Contains(_temp.Folder.DataFolder, refused.Message, StringComparison.Ordinal);
        Assert.Contains($"process {Environment.ProcessId}", refused.Message, StringComparison.Ordinal);
        Assert.Equal(1, first.Append("a reading"u8));
        Assert.True(first.Commit().IsDurable);
    }

    [Fact]
    public void The_lock_goes_with_the_writer()
    {
        _temp.Open().Dispose();
        Assert.False(RealDisk.Instance.IsLocked(_temp.Folder));
        _temp.Open().Dispose();
    }

    [Fact]
    public async Task Another_process_that_holds_the_folder_keeps_us_out_until_it_dies_by_force()
    {
        Directory.CreateDirectory(_temp.Folder.DataFolder);
        using Process other = StartHolder();
        try
        {
            Assert.Equal("held", await other.StandardOutput.ReadLineAsync());
            Assert.Throws<JournalLockedException>(_temp.Open);
            Assert.True(RealDisk.Instance.IsLocked(_temp.Folder));
        }
        finally
        {
            other.Kill(entireProcessTree: true);
        }
        await other.WaitForExitAsync();
        _temp.Open().Dispose();
    }

    [Fact]
    public async Task We_keep_another_process_out()
    {
        using JournalWriter writer = _temp.Open();
        using Process other = StartHolder();
        string? said = await other.StandardOutput.ReadLineAsync();
        await other.WaitForExitAsync();
        Assert.Null(said);
        Assert.Equal(1, other.ExitCode);
    }

    [Fact]
    public void Asking_whether_it_is_held_does_not_hold_it()
    {
        Assert.False(RealDisk.Instance.IsLocked(_temp.Folder));
        using JournalWriter writer = _temp.Open();
        for (int i = 0; i < 10; i++)
            Assert.True(RealDisk.Instance.IsLocked(_temp.Folder));
    }

    [Fact]
    public async Task Nobody_is_refused_because_others_are_asking_at_that_moment()
    {
        _temp.Open().Dispose();
        using var enough = new CancellationTokenSource();
        int asked = 0;
        Task[] askers =
        [
            .. Enumerable
                .Range(0, 2)
                .Select(_ =>
                    Task.Factory.StartNew(
                        () =>
                        {
                            while (!enough.IsCancellationRequested)
                            {
                                RealDisk.Instance.IsLocked(_temp.Folder);
                                Interlocked.Increment(ref asked);
                            }
                        },
                        CancellationToken.None,
                        TaskCreationOptions.LongRunning,
                        TaskScheduler.Default
                    )
                ),
        ];
        // On a busy machine the askers may come late: it goes on until they have asked often enough to mean something.
        int taken = 0;
        while (taken < 300 || Volatile.Read(ref asked) <= 300)
        {
            RealDisk.Instance.Lock(_temp.Folder).Dispose();
            taken++;
        }

        await enough.CancelAsync();
        await Task.WhenAll(askers);
        Assert.True(asked > 300 && taken >= 300, $"asked {asked} and taken {taken} times");
    }

    [Fact]
    public async Task Another_program_that_shares_the_lock_for_good_keeps_us_out_in_the_end()
    {
        Directory.CreateDirectory(_temp.Folder.DataFolder);
        using Process other = StartHolder("-s");
        try
        {
            Assert.Equal("held", await other.StandardOutput.ReadLineAsync());
            Assert.Throws<JournalLockedException>(_temp.Open);
        }
        finally
        {
            other.Kill(entireProcessTree: true);
        }
        await other.WaitForExitAsync();
        _temp.Open().Dispose();
    }

    /// <summary>
    /// util-linux's flock, a program that knows nothing of ours, takes the same kernel lock or fails at once. The command that it runs does
    /// not hold the lock (<c>-o</c>), so that the lock ends with flock itself.
    /// </summary>
    private Process StartHolder(string how = "-x") =>
        Process.Start(
            new ProcessStartInfo(
                "flock",
                [how, "-n", "-o", _temp.Folder.LockFile, "sh", "-c", "echo held; exec sleep 60"]
            )
            {
                RedirectStandardOutput = true,
            }
        )!;
}
