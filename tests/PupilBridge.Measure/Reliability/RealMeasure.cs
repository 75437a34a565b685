using PupilBridge.Measure.Figures;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Scenarios.Real;

namespace PupilBridge.Measure.Reliability;

/// <summary>Cuts of power, a full disk and tight limits, under the real service. Needs the superuser, for disks of its own.</summary>
internal static class RealMeasure
{
    public static async Task RunAsync(FigureFile figures, string folder, int cuts)
    {
        string Place(string name) => Directory.CreateDirectory(Path.Combine(folder, name)).FullName;

        var cut = await PowerCuts.RunAsync(Place("cuts"), cuts, seed: 77, pace: 4);
        Tell("power cuts", cut.WhyNot, cut.Problems);
        figures.Set("power_cuts", cut.Cuts);
        figures.Set("power_cuts_after_recording", cut.CutsAfterRecording);
        figures.Set("power_cuts_torn_tails", cut.TornTails);
        figures.Set("power_cuts_restarts", cut.Restarts);
        figures.Set("power_cuts_problems", cut.Problems.Count);
        System.Console.WriteLine(
            $"power cuts: {cut.Cuts} disks, {cut.CutsAfterRecording} after recording, {cut.TornTails} torn tails, {cut.Restarts} restarts, "
                + $"{cut.AcknowledgedThen:N0} acknowledged events looked for, {cut.Problems.Count} problems"
        );

        var full = await FullDisk.RunAsync(Place("full"), megabytes: 6, seed: 78, pace: 40);
        Tell("full disk", full.WhyNot, full.Audit.Problems);
        figures.Set("full_disk_events_waiting", full.KeptWhileFull);
        figures.Set("full_disk_lost", full.Audit.Lost);
        Tell("full disk", full.WasFull, full.CameToRest, full.IsSound, full.Audit);

        var safe = await FullDestination.RunAsync(Place("destination"), megabytes: 8);
        Tell("full destination", safe.WhyNot, safe.Problems);
        figures.Set("full_destination_times", safe.Full);
        figures.Set("full_destination_problems", safe.Problems.Count);
        System.Console.WriteLine(
            $"backups to a full disk: it was full {safe.Full} times, {safe.Problems.Count} problems"
        );

        var files = await TightLimits.NoMoreFilesAsync(Place("files"), 79);
        Tell(files);
        figures.Set("limit_files_lost", files.Audit.Lost);
        await LittleMemoryAsync(figures, Place);
    }

    /// <summary>Heaps ever smaller, since how small a heap must be to be felt depends on the machine.</summary>
    private static async Task LittleMemoryAsync(FigureFile figures, Func<string, string> place)
    {
        var (lost, felt) = (0L, 0);
        foreach (var megabytes in (int[])[12, 10, 9, 8])
        {
            var heap = await TightLimits.LittleMemoryAsync(place($"memory-{megabytes}"), 80 + megabytes, megabytes);
            Tell(heap);
            lost += heap.Audit.Lost;
            felt += heap.WasFelt ? 1 : 0;
        }

        figures.Set("limit_memory_lost", lost);
        figures.Set("limit_memory_felt", felt);
        if (felt == 0)
            System.Console.Error.WriteLine("little memory: no heap was small enough to be felt; nothing was shown.");
    }

    private static void Tell(TightLimitResult limit) =>
        Tell($"{limit.Limit} (ended {limit.Ended})", limit.WasFelt, limit.CameToRest, limit.IsSound, limit.Audit);

    private static void Tell(string what, bool wasFelt, bool rest, bool sound, AuditResult audit)
    {
        System.Console.WriteLine(
            $"{what}: felt {wasFelt}, came to rest {rest}, journal sound {sound}, {audit.Happened:N0} happened, {audit.Recorded:N0} recorded, "
                + $"lost {audit.Lost}, doubled {audit.Doubled}, false {audit.False}"
        );
        foreach (var problem in audit.Problems)
            System.Console.Error.WriteLine($"{what}: {problem}");
    }

    private static void Tell(string what, string? whyNot, IReadOnlyList<string> problems)
    {
        if (whyNot is not null)
            System.Console.Error.WriteLine($"{what}: not possible on this machine: {whyNot}");
        foreach (var problem in problems)
            System.Console.Error.WriteLine($"{what}: {problem}");
    }
}
