using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Scenarios.Real;

/// <summary>What a row of cuts came to.</summary>
/// <param name="WhyNot">Why this machine allows none; null if it does.</param>
/// <param name="Cuts">How many disks were copied under the stopped service.</param>
/// <param name="CutsAfterRecording">Of these, when events had been acknowledged since the one before.</param>
/// <param name="TornTails">Of these, with a torn tail in the journal.</param>
/// <param name="Restarts">How many times the real service was started on such a disk.</param>
/// <param name="AcknowledgedThen">Events that had been acknowledged at the cuts, added up.</param>
/// <param name="Problems">Everything that must not be, one sentence each; empty if all is well.</param>
public sealed record PowerCutResult(
    string? WhyNot,
    int Cuts,
    int CutsAfterRecording,
    int TornTails,
    int Restarts,
    long AcknowledgedThen,
    IReadOnlyList<string> Problems
);

/// <summary>
/// Cuts the power under the real service while exams run over a pseudo-terminal: the service is stopped in the middle of whatever it does,
/// and its disk is copied as the device holds it. On each copy all that the instrument was told to be recorded must stand.
/// </summary>
public static class PowerCuts
{
    private const int EveryRestart = 5;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>Time for acknowledgements that were sent before the stop to come out of the pseudo-terminal.</summary>
    private static readonly TimeSpan Echo = TimeSpan.FromMilliseconds(150);

    /// <summary>Runs it.</summary>
    /// <param name="folder">An empty folder on a real disk.</param>
    /// <param name="cuts">How often to cut.</param>
    /// <param name="seed">Chooses the moments, person and model.</param>
    /// <param name="pace">How many times faster than life hands and eyes go.</param>
    public static async Task<PowerCutResult> RunAsync(string folder, int cuts, int seed, double pace)
    {
        var (disk, whyNot) = BlockDevice.Make(Directory.CreateDirectory(folder).FullName, 96);
        if (disk is null)
            return new(whyNot, 0, 0, 0, 0, 0, []);
        using (disk)
            return await CutAsync(folder, disk, cuts, seed, pace).ConfigureAwait(false);
    }

    private static async Task<PowerCutResult> CutAsync(string folder, BlockDevice disk, int cuts, int seed, double pace)
    {
        var random = new Random(seed);
        var link = Path.Combine(folder, "lane");
        var data = Path.Combine(disk.Root, "data");
        var result = new PowerCutResult(null, 0, 0, 0, 0, 0, []);
        await using var lane = new ServedLane(link, seed, FaultSet.None, pace);
        using var end = new CancellationTokenSource();
        var examining = lane.ExamineOnAndOnAsync(end.Token);
        using var service = ServiceProcess.Start(data, link, "Bridge:ReconnectCap=1");
        for (var cut = 0; cut < cuts; cut++)
        {
            var before = Acknowledged(lane).Sequence;
            await service
                .UntilAsync(
                    () => Task.FromResult(Acknowledged(lane).Sequence > before),
                    Patience,
                    "Nothing was acknowledged"
                )
                .ConfigureAwait(false);
            await Task.Delay(random.Next(0, 250)).ConfigureAwait(false);
            Shell.Run("kill", "-STOP", $"{service.Id}");
            await Task.Delay(Echo).ConfigureAwait(false);
            var told = Acknowledged(lane);
            var place = Path.Combine(folder, $"cut-{cut}");
            var (copy, fault) = BlockDevice.Copy(place, disk.Image);
            Shell.Run("kill", "-CONT", $"{service.Id}");
            if (copy is null)
            {
                result = result with { Problems = [.. result.Problems, $"cut {cut}: {fault}"] };
                continue;
            }

            using (copy)
                result = await JudgeAsync(result, lane, told, before, copy, cut).ConfigureAwait(false);
            Directory.Delete(place, recursive: true);
        }

        await end.CancelAsync().ConfigureAwait(false);
        await examining.ConfigureAwait(false);
        service.Stop();
        return result;
    }

    private static async Task<PowerCutResult> JudgeAsync(
        PowerCutResult sum,
        ServedLane lane,
        (BootNumber Boot, long Sequence) told,
        long before,
        BlockDevice copy,
        int cut
    )
    {
        var data = Path.Combine(copy.Root, "data");
        List<string> problems = [];
        var found = Verify(data);
        problems.AddRange(found.IsSound ? [] : [$"cut {cut}: {found.Summary}"]);
        problems.AddRange(Missing(data, told, cut));
        var isRestarted = cut % EveryRestart == 0;
        if (isRestarted)
        {
            problems.AddRange(await RestartAsync(data, cut).ConfigureAwait(false));
            problems.AddRange(Missing(data, told, cut));
            // What is not there was not acknowledged: it counts as pending.
            problems.AddRange(lane.Audit(data, settled: false).Problems.Select(one => $"cut {cut}: {one}"));
        }

        return sum with
        {
            Cuts = sum.Cuts + 1,
            CutsAfterRecording = sum.CutsAfterRecording + (told.Sequence > before ? 1 : 0),
            TornTails = sum.TornTails + (found.Problems.Count > 0 ? 1 : 0),
            Restarts = sum.Restarts + (isRestarted ? 1 : 0),
            AcknowledgedThen = sum.AcknowledgedThen + told.Sequence,
            Problems = [.. sum.Problems, .. problems],
        };
    }

    /// <summary>Starts the real service on the disk, as after the power came back; the exam log is made anew, the journal goes on.</summary>
    private static async Task<IReadOnlyList<string>> RestartAsync(string data, int cut)
    {
        // Another boot of the machine: the exam log's mark names the one before.
        foreach (var state in Directory.GetFiles(data, "state", SearchOption.AllDirectories))
            await File.WriteAllTextAsync(state, "another boot").ConfigureAwait(false);
        using var service = ServiceProcess.Start(data, Path.Combine(data, "no-line"));
        await service
            .UntilAsync(
                () => Task.FromResult(service.Said.Contains("PupilBridge runs", StringComparison.Ordinal)),
                Patience,
                "The service did not come up on the disk"
            )
            .ConfigureAwait(false);
        service.Stop();
        var verified = Verify(data);
        return verified.IsSound ? [] : [$"cut {cut}, after the restart: {verified.Summary}"];
    }

    private static IReadOnlyList<string> Missing(string data, (BootNumber Boot, long Sequence) told, int cut)
    {
        var recorded = JournalText
            .ReadAll(data)
            .Select(one => one.Entry)
            .OfType<Exams.Entries.InstrumentReported>()
            .Where(one => one.Boot == told.Boot)
            .Select(one => JournalAudit.Take(one.RawLine).Sequence)
            .ToHashSet();
        var missing = Enumerable.Range(1, (int)told.Sequence).Count(sequence => !recorded.Contains(sequence));
        return missing == 0 ? [] : [$"cut {cut}: {missing} of {told.Sequence} acknowledged events are gone"];
    }

    private static VerifyReport Verify(string data) =>
        JournalVerifier.Verify(RealDisk.Instance, JournalText.Folder(data));

    private static (BootNumber Boot, long Sequence) Acknowledged(ServedLane lane) =>
        lane.Served.With(i => (i.Truth.Boots[^1], i.Link.Acknowledged));
}
