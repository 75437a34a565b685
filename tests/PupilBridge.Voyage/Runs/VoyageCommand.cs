using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Voyage.Runs;

/// <summary>The program: short and long runs, and the replay of one seed.</summary>
internal sealed class VoyageCommand : RootCommand
{
    private readonly Option<double> hours = new("--hours") { DefaultValueFactory = _ => 2_000 };
    private readonly Option<long> from = new("--from") { DefaultValueFactory = _ => 1 };
    private readonly Option<double> longHours = new("--hours") { DefaultValueFactory = _ => 50_000 };
    private readonly Option<double?> minutes = new("--minutes");
    private readonly Option<int> stride = new("--stride") { DefaultValueFactory = _ => 1 };
    private readonly Option<string> output = new("--out")
    {
        DefaultValueFactory = _ => "docs/figures/reliability.json",
    };
    private readonly Argument<long> seed = new("seed");

    public VoyageCommand()
        : base(
            "Simulates the whole clinic from seeds, with everything that can go wrong, and holds the outcome against a model."
        )
    {
        hours.Description = "Exam-hours to simulate.";
        from.Description = "The first seed.";
        var run = new Command("run", "Voyages until so many exam-hours are simulated; fails on any finding.")
        {
            hours,
            from,
        };
        run.SetAction((result, _) => Task.FromResult(Run(result.GetValue(from), result.GetValue(hours))));
        Add(run);
        var replay = new Command("replay", "Does the voyage of one seed again.") { seed };
        replay.SetAction((result, _) => Task.FromResult(Again(result.GetValue(seed))));
        Add(replay);
        stride.Description = "1 fails each operation of the disk, more only every so many.";
        var points = new Command(
            "points",
            "Fails the first, second, third … operation of the disk over one whole exam."
        )
        {
            stride,
        };
        points.SetAction((result, _) => Task.FromResult(Points(result.GetValue(stride)).Failures.Count == 0 ? 0 : 1));
        Add(points);
        output.Description = "The file that the figures go into.";
        longHours.Description = hours.Description;
        minutes.Description = "After so many minutes no voyage begins any more, however many exam-hours are done.";
        var longRun = new Command("long", "A long run and all points of failure; writes docs/figures/reliability.json.")
        {
            longHours,
            from,
            minutes,
            output,
        };
        longRun.SetAction(
            (result, _) =>
                Task.FromResult(
                    Long(
                        result.GetValue(from),
                        result.GetValue(longHours),
                        result.GetValue(minutes),
                        result.GetValue(output)!
                    )
                )
        );
        Add(longRun);
    }

    private static int Long(long from, double hours, double? minutes, string output)
    {
        var started = TimeProvider.System.GetTimestamp();
        var fleet = new Fleet();
        fleet.Sail(from, hours, minutes is { } most ? TimeSpan.FromMinutes(most) : null);
        FleetReport.Print(fleet, TimeProvider.System.GetElapsedTime(started));
        var points = Points(1);
        var figures = new FigureFile(output);
        var counts = fleet.Counts;
        figures.Set("simulated_exam_hours", counts.ExamTime.TotalHours);
        figures.Set("simulated_exams", counts.Exams);
        figures.Set("simulated_voyages", fleet.Voyages);
        figures.Set("simulated_from_seed", from);
        figures.Set("simulated_events", fleet.Events.Happened);
        figures.Set("simulated_entries_of_people", counts.EntriesOfPeople);
        figures.Set("simulated_erasures_ordered", counts.Erasures.Ordered);
        figures.Set("simulated_erasures_done", counts.Erasures.Done);
        figures.Set("simulated_erasures_refused", counts.Erasures.Refused);
        figures.Set("simulated_erasures_cut_off", counts.Erasures.CutOff);
        figures.Set("simulated_voyages_failed", fleet.Failures.Count);
        figures.Set("lost", fleet.Events.Lost);
        figures.Set("doubled", fleet.Events.Doubled);
        figures.Set("false", fleet.Events.False);
        var fired = new JsonObject();
        foreach (var (name, count) in counts.FiredByKind)
            fired[name] = count;
        figures.Set("faults_fired", fired);
        figures.Set("kills_simulated", Sum(counts, "machine-death"));
        figures.Set("unplugs", Sum(counts, "line-unplug"));
        figures.Set("power_cuts_simulated", Sum(counts, "machine-power-cut"));
        figures.Set("io_fail_points", points.Points);
        figures.Set("io_fail_points_failed", points.Failures.Count);
        figures.Save(
            "simulator",
            "dotnet run -c Release --project tests/PupilBridge.Voyage -- long",
            Path.GetFullPath(".")
        );
        return FleetReport.IsGood(fleet, minutes is null ? hours : 0) && points.Failures.Count == 0 ? 0 : 1;
    }

    private static long Sum(RunCounts counts, string prefix) =>
        counts.FiredByKind.Where(f => f.Key.StartsWith(prefix, StringComparison.Ordinal)).Sum(f => f.Value);

    private static IoPoints Points(int stride)
    {
        var points = new IoPoints();
        points.Run(failsOn: false, stride);
        points.Run(failsOn: true, stride);
        System.Console.WriteLine(
            $"{points.Points} operations of the disk made to fail over a whole exam, once and for good"
        );
        foreach (var (point, problems) in points.Failures.Take(10))
            System.Console.WriteLine($"FAILED at operation {point}: {problems[0]}");
        return points;
    }

    private static int Run(long from, double hours)
    {
        var started = TimeProvider.System.GetTimestamp();
        var fleet = new Fleet();
        fleet.Sail(from, hours);
        var took = TimeProvider.System.GetElapsedTime(started);
        FleetReport.Print(fleet, took);
        System.Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"The same again: dotnet run -c Release --project tests/PupilBridge.Voyage -- run --hours {hours} --from {from}"
            )
        );
        FleetReport.PrintClosing(fleet, hours);
        return FleetReport.IsGood(fleet, hours) ? 0 : 1;
    }

    private static int Again(long seed)
    {
        var result = VoyageRun.Run(VoyagePlan.Of(seed));
        System.Console.WriteLine(result.Plan);
        foreach (var (name, count) in result.Counts.FiredByKind.Where(f => f.Value > 0))
            System.Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {name} {count}"));
        foreach (var problem in result.Problems)
            System.Console.WriteLine($"PROBLEM {problem}");
        System.Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{result.Counts.Exams} exams, {result.Counts.ExamTime.TotalHours:0.0} exam-hours, {result.Counts.Records} records, {result.Problems.Count} problems; "
                    + $"journal {result.Digest}"
            )
        );
        return result.Problems.Count == 0 ? 0 : 1;
    }
}
