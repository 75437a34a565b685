using System.Globalization;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Scenarios.Service;

namespace PupilBridge.Scenarios.Real;

/// <summary>What backups to a disk that ran full came to.</summary>
/// <param name="WhyNot">Why this machine allows none; null if it does.</param>
/// <param name="Full">How often the disk was full, in a backup and in a restoring.</param>
/// <param name="Problems">What was not as it has to be.</param>
public sealed record FullDestinationResult(string? WhyNot, int Full, IReadOnlyList<string> Problems);

/// <summary>
/// Backups by the real program to a small disk in memory that is filled at different places, and a restoring to it: each must fail in
/// words, leave nothing that is taken for whole, and be completed by the next run once there is room.
/// </summary>
public static class FullDestination
{
    private const int Storage = 10;
    private const int NotFound = 3;
    private static readonly byte[] Entry = EntryCodec.Encode(
        new LineChanged
        {
            At = new UtcTime(0),
            Serial = new SerialNumber("QA-0001"),
            PortName = "/dev/quay",
            State = LineState.Connected,
            Reason = new string('x', 940),
        }
    );

    /// <summary>Runs it.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="megabytes">The size of the journal.</param>
    public static async Task<FullDestinationResult> RunAsync(string folder, int megabytes)
    {
        var mount = Directory.CreateDirectory(Path.Combine(folder, "small")).FullName;
        if (Shell.Try("mount", "-t", "tmpfs", "-o", Size(megabytes * 1_000L / 4), "tmpfs", mount) is { } fault)
            return new(fault, 0, []);
        try
        {
            List<string> problems = [];
            var full = await FillAsync(folder, mount, megabytes, problems).ConfigureAwait(false);
            return new(null, full, problems);
        }
        finally
        {
            Shell.Try("umount", mount);
        }
    }

    private static async Task<int> FillAsync(string folder, string mount, int megabytes, List<string> problems)
    {
        var (data, safe, second) = (
            Path.Combine(folder, "data"),
            Path.Combine(mount, "safe"),
            Path.Combine(mount, "second")
        );
        Write(data, megabytes);
        var full = 0;
        string[] backup = ["backup", safe, "--unencrypted", "--data", data];
        // A quarter, a half and three quarters of what it needs.
        for (var quarters = 1; quarters <= 3; quarters++)
        {
            Shell.Run("mount", "-o", $"remount,{Size(megabytes * quarters * 1_000L / 4)}", mount);
            full += await ExpectAsync(problems, Storage, backup).ConfigureAwait(false);
            await ExpectAsync(problems, NotFound, "backup", "list", safe).ConfigureAwait(false);
            await ExpectAsync(problems, NotFound, "restore", safe, "--data", second).ConfigureAwait(false);
        }

        Shell.Run("mount", "-o", $"remount,{Size(megabytes * 1_500L)}", mount);
        await ExpectAsync(problems, 0, backup).ConfigureAwait(false);
        await ExpectAsync(problems, 0, "backup", "verify", safe).ConfigureAwait(false);
        full += await ExpectAsync(problems, Storage, "restore", safe, "--data", second).ConfigureAwait(false);
        if (Directory.Exists(second))
            problems.Add("What was restored half has the name of a whole one.");
        Shell.Run("mount", "-o", $"remount,{Size(megabytes * 4_000L)}", mount);
        await ExpectAsync(problems, 0, "restore", safe, "--data", second).ConfigureAwait(false);
        await ExpectAsync(problems, 0, "journal", "verify", "--data", second).ConfigureAwait(false);
        return full;
    }

    private static async Task<int> ExpectAsync(List<string> problems, int code, params string[] words)
    {
        var run = await ProgramRun.RunAsync(words).ConfigureAwait(false);
        if (run.ExitCode == code)
            return 1;
        problems.Add(
            $"{string.Join(' ', words)} ended with {run.ExitCode} and not with {code}: {run.Output}{run.Errors}"
        );
        return 0;
    }

    /// <summary>A journal of four segments, so that pieces are complete before the disk is full.</summary>
    private static void Write(string data, int megabytes)
    {
        for (var segment = 0; segment < 4; segment++)
        {
            using var writer = JournalWriter.Open(
                RealDisk.Instance,
                new JournalOptions { Folder = new JournalFolder(data) }
            );
            for (var i = 0; i < megabytes * 1_000 / 4; i++)
                writer.Append(Entry);
            if (!writer.StopCleanly().IsDurable)
                throw new IOException("The journal could not be written.");
        }
    }

    private static string Size(long kilobytes) => string.Create(CultureInfo.InvariantCulture, $"size={kilobytes}k");
}
