using System.Diagnostics;
using System.Globalization;
using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Faults;

/// <summary>
/// A process that may not write files beyond a size meets the same failed writes as on a full disk, at whatever place: in the engine's
/// log, in the middle of a checkpoint, in the check sums.
/// </summary>
public class FullDiskTests
{
    private const int Seed = 23;

    [Theory]
    [InlineData(300)]
    [InlineData(700)]
    [InlineData(1000)]
    [InlineData(1500)]
    [InlineData(2600)]
    [InlineData(700, true)]
    [InlineData(1500, true)]
    public async Task A_failed_write_is_told_and_with_room_again_nothing_reported_is_missing(
        int limitKibibytes,
        bool encrypt = false
    )
    {
        if (!OperatingSystem.IsLinux())
        {
            return; // Limits of a process are set by its shell here.
        }

        using var data = new DataFolder();
        var (reported, last, exitCode) = await RunLimitedAsync(data.Path, limitKibibytes, encrypt);

        Assert.Equal(EndlessWriter.Broke, exitCode);
        Assert.StartsWith("Damaged: ", last, StringComparison.Ordinal);
        Assert.Contains(data.Path, last, StringComparison.Ordinal);
        using var expected = new DataFolder();
        Assert.Equal(GoOn(expected.Path, reported + 40), GoOn(data.Path, reported + 40, reported, encrypt));
    }

    /// <summary>Applies the stream up to a sequence and reads everything.</summary>
    private static ContentDigest GoOn(string folder, long upTo, long hasAtLeast = 0, bool encrypt = false)
    {
        using var store = ExamLogStore.Open(folder, Kind.Options(encrypt));
        Assert.True(
            store.LastApplied >= hasAtLeast,
            $"{store.LastApplied} is less than the {hasAtLeast} that were reported"
        );
        store.Verify();
        foreach (var stretch in Samples.Stream(Seed, 100_000).TakeWhile(stretch => stretch.UpTo <= upTo))
        {
            store.Apply(stretch.UpTo, stretch.Changes);
        }

        return store.Verify();
    }

    private static async Task<(long Reported, string Last, int ExitCode)> RunLimitedAsync(
        string folder,
        int kibibytes,
        bool encrypt
    )
    {
        var start = new ProcessStartInfo("/bin/bash") { RedirectStandardOutput = true };
        // The runtime's own memory for compiled code is a file as well, in this respect, unless told otherwise.
        start.Environment["DOTNET_EnableWriteXorExecute"] = "0";
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add("trap '' XFSZ; ulimit -f \"$1\"; shift; exec \"$@\"");
        start.ArgumentList.Add("limited");
        start.ArgumentList.Add(kibibytes.ToString(CultureInfo.InvariantCulture));
        start.ArgumentList.Add(Environment.ProcessPath!);
        start.ArgumentList.Add(typeof(FullDiskTests).Assembly.Location);
        start.ArgumentList.Add("write");
        start.ArgumentList.Add(folder);
        start.ArgumentList.Add(Seed.ToString(CultureInfo.InvariantCulture));
        start.ArgumentList.Add(encrypt ? "encrypted" : "plain");
        using var process = Process.Start(start)!;
        var (reported, last) = (0L, "");
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            last = line;
            reported = long.TryParse(line, CultureInfo.InvariantCulture, out var upTo) ? upTo : reported;
        }

        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(60));
        return (reported, last, process.ExitCode);
    }
}
