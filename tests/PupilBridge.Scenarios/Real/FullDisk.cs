using System.Globalization;
using PupilBridge.Journal;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Scenarios.Real;

/// <summary>What an exam on a disk that ran full came to.</summary>
/// <param name="WhyNot">Why this machine allows none; null if it does.</param>
/// <param name="WasFull">Whether the disk really was full and the instrument kept its events.</param>
/// <param name="KeptWhileFull">Events that waited in the instrument then.</param>
/// <param name="CameToRest">Whether all was acknowledged once there was room.</param>
/// <param name="IsSound">Whether the journal verifies.</param>
/// <param name="Audit">The journal against the oracle.</param>
public sealed record FullDiskResult(
    string? WhyNot,
    bool WasFull,
    int KeptWhileFull,
    bool CameToRest,
    bool IsSound,
    AuditResult Audit
);

/// <summary>Exams into the real service on a small disk in memory, which something else fills and later empties again.</summary>
public static class FullDisk
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(4);

    /// <summary>Runs it.</summary>
    /// <param name="folder">An empty folder.</param>
    /// <param name="megabytes">The disk's size.</param>
    /// <param name="seed">Chooses person and model.</param>
    /// <param name="pace">How many times faster than life hands and eyes go.</param>
    public static async Task<FullDiskResult> RunAsync(string folder, int megabytes, int seed, double pace)
    {
        var mount = Directory.CreateDirectory(Path.Combine(folder, "small")).FullName;
        var size = string.Create(CultureInfo.InvariantCulture, $"size={megabytes}m");
        if (Shell.Try("mount", "-t", "tmpfs", "-o", size, "tmpfs", mount) is { } fault)
            return new(fault, false, 0, false, false, AuditResult.None);
        try
        {
            return await FillAsync(Path.Combine(folder, "lane"), mount, seed, pace).ConfigureAwait(false);
        }
        finally
        {
            Shell.Try("umount", mount);
        }
    }

    private static async Task<FullDiskResult> FillAsync(string link, string mount, int seed, double pace)
    {
        var (data, ballast) = (Path.Combine(mount, "data"), Path.Combine(mount, "ballast"));
        await using var lane = new ServedLane(link, seed, FaultSet.None, pace);
        using var end = new CancellationTokenSource();
        var examining = lane.ExamineOnAndOnAsync(end.Token);
        using var service = ServiceProcess.Start(data, link, "Bridge:ReconnectCap=1");
        await service
            .UntilAsync(() => Task.FromResult(Acknowledged(lane) > 5), Patience, "Nothing was acknowledged")
            .ConfigureAwait(false);
        FillUp(ballast);
        var (kept, last, still) = (0, -1L, 0);
        // Full is when events wait in the instrument and nothing more is acknowledged for two seconds.
        await service
            .UntilAsync(
                () =>
                {
                    kept = lane.Served.With(i => i.Link.KeptCount);
                    still = Acknowledged(lane) == last && kept > 0 ? still + 1 : 0;
                    last = Acknowledged(lane);
                    return Task.FromResult(still >= 80);
                },
                Patience,
                "The disk never was full"
            )
            .ConfigureAwait(false);
        File.Delete(ballast);
        await end.CancelAsync().ConfigureAwait(false);
        await examining.ConfigureAwait(false);
        var rest = await lane.CameToRestAsync(Patience).ConfigureAwait(false);
        service.Stop();
        var verified = JournalVerifier.Verify(RealDisk.Instance, JournalText.Folder(data));
        return new(null, true, kept, rest, verified.IsSound, lane.Audit(data, settled: rest));
    }

    private static long Acknowledged(ServedLane lane) => lane.Served.With(i => i.Link.Acknowledged);

    private static void FillUp(string ballast)
    {
        using var file = new FileStream(ballast, FileMode.CreateNew, FileAccess.Write, FileShare.Read, bufferSize: 0);
        foreach (var piece in new[] { 64 * 1024, 4096, 1 })
        {
            var bytes = new byte[piece];
            try
            {
                while (true)
                    file.Write(bytes);
            }
            catch (IOException)
            {
                // No room for a piece of this size any more.
            }
        }
    }
}
