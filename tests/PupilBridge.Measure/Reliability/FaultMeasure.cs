using System.Text.Json.Nodes;
using PupilBridge.Measure.Figures;
using PupilBridge.Scenarios.InMemory;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Measure.Reliability;

/// <summary>Exams under every fault at once, in memory and over pseudo-terminals, and kills of the real service.</summary>
internal static class FaultMeasure
{
    public static async Task RunAsync(FigureFile figures, string folder, int inMemory, int overTerminal, int kills)
    {
        var fired = FaultCatalogue.Storm.ToDictionary(name => name, _ => 0L);
        var (total, hours) = (AuditResult.None, 0.0);
        for (var seed = 1; seed <= inMemory; seed++)
        {
            var result = FaultExam.Run(Path.Combine(folder, $"m{seed}"), seed, FaultSet.Create(["all"], seed));
            total += Checked(result.Audit, result.CameToRest, $"in memory, seed {seed}");
            hours += result.VirtualTime.TotalHours;
            Add(fired, result.Fired);
        }

        for (var seed = 1; seed <= overTerminal; seed++)
        {
            var run = Directory.CreateDirectory(Path.Combine(folder, $"t{seed}")).FullName;
            var result = await FaultsOverTerminal.RunAsync(run, seed, pace: 4);
            total += Checked(result.Audit, result.CameToRest, $"over a terminal, seed {seed}");
            Add(fired, result.Fired);
        }

        var storm = await KillStorm.RunAsync(
            Directory.CreateDirectory(Path.Combine(folder, "k")).FullName,
            kills,
            20_261,
            4
        );
        total += Checked(storm.Audit, storm.CameToRest, "kill storm");
        Write(figures, inMemory, overTerminal, hours, total, storm, fired);
    }

    private static void Write(
        FigureFile figures,
        int inMemory,
        int overTerminal,
        double hours,
        AuditResult total,
        KillStormResult storm,
        Dictionary<string, long> fired
    )
    {
        figures.Set("fault_exams", inMemory + overTerminal);
        figures.Set("fault_exams_in_memory", inMemory);
        figures.Set("fault_exams_over_terminal", overTerminal);
        figures.Set("fault_exam_hours_in_memory", hours);
        figures.Set("events_happened", total.Happened);
        figures.Set("events_recorded", total.Recorded);
        figures.Set("events_in_gaps", total.InGap);
        figures.Set("events_in_gaps_needlessly", total.GivenUp);
        figures.Set("events_of_boots_never_met", total.NeverMet);
        figures.Set("lost", total.Lost);
        figures.Set("doubled", total.Doubled);
        figures.Set("false", total.False);
        figures.Set("kills", storm.Kills);
        figures.Set("kills_with_events_under_way", storm.KillsWithEventsUnderWay);
        figures.Set("kills_after_recording", storm.KillsAfterRecording);
        var counts = new JsonObject();
        foreach (var (name, count) in fired.OrderBy(f => f.Key, StringComparer.Ordinal))
            counts[name] = count;
        figures.Set("faults_fired", counts);
        System.Console.WriteLine(
            $"faults: {inMemory} + {overTerminal} exams, {storm.Kills} kills; {total.Happened:N0} events happened, "
                + $"{total.Recorded:N0} recorded, {total.InGap:N0} told of in gaps, lost {total.Lost}, doubled {total.Doubled}, false {total.False}"
        );
    }

    private static AuditResult Checked(AuditResult audit, bool cameToRest, string which)
    {
        foreach (var problem in audit.Problems)
            System.Console.Error.WriteLine($"{which}: {problem}");
        if (!cameToRest)
            System.Console.Error.WriteLine($"{which}: did not come to rest");
        return audit;
    }

    private static void Add(Dictionary<string, long> fired, IReadOnlyDictionary<string, long> more)
    {
        foreach (var (name, count) in more)
            fired[name] += count;
    }
}
