using System.Globalization;
using PupilBridge.Journal;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Scenarios.Real;

/// <summary>What exams under a limit of the operating system came to.</summary>
/// <param name="Limit">The limit, in words.</param>
/// <param name="Ended">Whether the service ended by itself under it.</param>
/// <param name="WasFelt">Whether the limit was felt: the service ended, or said that something failed.</param>
/// <param name="CameToRest">Whether all was acknowledged once the limit was gone.</param>
/// <param name="IsSound">Whether the journal verifies.</param>
/// <param name="Audit">The journal against the oracle.</param>
public sealed record TightLimitResult(
    string Limit,
    bool Ended,
    bool WasFelt,
    bool CameToRest,
    bool IsSound,
    AuditResult Audit
);

/// <summary>
/// Exams into the real service with hardly any file descriptors or memory left to it: whatever becomes of the service, a new one without
/// the limit must find nothing lost and nothing doubled.
/// </summary>
public static class TightLimits
{
    private const string HeapLimit = "DOTNET_GCHeapHardLimit";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private static readonly TimeSpan UnderLimit = TimeSpan.FromSeconds(15);

    /// <summary>No more files can be opened: the limit is set to what the service has open already.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="seed">Chooses person and model.</param>
    public static Task<TightLimitResult> NoMoreFilesAsync(string folder, int seed) =>
        RunAsync(
            folder,
            "no file descriptor left",
            seed,
            static service =>
            {
                var open = Directory.GetFileSystemEntries($"/proc/{service.Id}/fd").Length;
                Shell.Run("prlimit", "--pid", $"{service.Id}", $"--nofile={open}:{open}");
            }
        );

    /// <summary>A heap that is too small for it.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="seed">Chooses person and model.</param>
    /// <param name="megabytes">The heap's size.</param>
    public static async Task<TightLimitResult> LittleMemoryAsync(string folder, int seed, int megabytes)
    {
        Environment.SetEnvironmentVariable(
            HeapLimit,
            string.Create(CultureInfo.InvariantCulture, $"0x{megabytes * 1024L * 1024:X}")
        );
        try
        {
            return await RunAsync(
                    folder,
                    $"a heap of {megabytes} MB",
                    seed,
                    _ => Environment.SetEnvironmentVariable(HeapLimit, null)
                )
                .ConfigureAwait(false);
        }
        finally
        {
            Environment.SetEnvironmentVariable(HeapLimit, null);
        }
    }

    private static async Task<TightLimitResult> RunAsync(
        string folder,
        string limit,
        int seed,
        Action<ServiceProcess> tighten
    )
    {
        var (link, data) = (Path.Combine(folder, "lane"), Path.Combine(folder, "data"));
        await using var lane = new ServedLane(link, seed, FaultSet.None, pace: 8);
        using var end = new CancellationTokenSource();
        var examining = lane.ExamineOnAndOnAsync(end.Token);
        bool ended,
            felt;
        using (var tight = ServiceProcess.Start(data, link, "Bridge:ReconnectCap=1"))
        {
            try
            {
                await tight
                    .UntilAsync(() => Task.FromResult(Acknowledged(lane) > 5), Patience, "Nothing was acknowledged")
                    .ConfigureAwait(false);
            }
            catch (InvalidOperationException) when (tight.HasExited)
            {
                // It did not even come up under the limit.
            }

            tighten(tight);
            using var time = new CancellationTokenSource(UnderLimit);
            // A line that breaks needs a descriptor anew: this is when the limit is felt.
            lane.Served.Unplug();
            await Task.Delay(TimeSpan.FromSeconds(1)).ConfigureAwait(false);
            lane.Served.Replug();
            while (!time.IsCancellationRequested && !tight.HasExited)
                await Task.Delay(100).ConfigureAwait(false);
            ended = tight.HasExited;
            felt = ended || tight.Said.Contains("Too many open files", StringComparison.OrdinalIgnoreCase);
        }

        using var service = ServiceProcess.Start(data, link, "Bridge:ReconnectCap=1");
        await end.CancelAsync().ConfigureAwait(false);
        await examining.ConfigureAwait(false);
        var rest = await lane.CameToRestAsync(Patience).ConfigureAwait(false);
        service.Stop();
        var verified = JournalVerifier.Verify(RealDisk.Instance, JournalText.Folder(data));
        return new(limit, ended, felt, rest, verified.IsSound, lane.Audit(data, settled: rest));
    }

    private static long Acknowledged(ServedLane lane) => lane.Served.With(i => i.Link.Acknowledged);
}
