using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using PupilBridge.Browser.Served;
using PupilBridge.Exams.Entries;
using PupilBridge.Measure.Figures;
using PupilBridge.Measure.Idle;
using PupilBridge.Scenarios;
using PupilBridge.Scenarios.Oracle;

namespace PupilBridge.Measure.Load;

/// <summary>
/// The real service with many instruments over loopback TCP, all examining at once and faster than life, and an examiner at the console;
/// afterwards the journal against what the instruments know of themselves.
/// </summary>
internal static class LoadMeasure
{
    /// <summary>How many times faster than a real examiner.</summary>
    private const double Pace = 10;

    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(10);
    private static readonly TimeSpan Settling = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    public static async Task RunAsync(FigureFile figures, string folder, int instruments, TimeSpan lasting)
    {
        var lanes = Enumerable.Range(0, instruments).Select(number => new LoadedLane(number, Pace)).ToArray();
        await using var console = await ServedConsole.StartAsync(
            folder,
            [.. lanes.Select(lane => lane.Port)],
            string.Create(CultureInfo.InvariantCulture, $"Bridge:MaxPorts={instruments}")
        );
        try
        {
            await StepUntilAsync(
                lanes,
                examines: false,
                () => lanes.All(lane => lane.IsGreeted),
                "not all were greeted"
            );
        }
        catch (TimeoutException e)
        {
            throw new TimeoutException($"{e.Message} The service said:\n{console.Said}", e);
        }

        using var visitor = new ConsoleVisitor(console.Address);
        await visitor.SignInAsync(People.OtherExaminer);
        using var over = new CancellationTokenSource();
        var visiting = visitor.VisitAsync(over.Token);
        var memory = await ExamineAsync(lanes, console.ProcessId, lasting);
        await over.CancelAsync();
        await visiting;
        await StepUntilAsync(
            lanes,
            examines: false,
            () => lanes.All(lane => lane.IsAllAcknowledged),
            "not all events were acknowledged"
        );
        console.Stop();
        Report(figures, lanes, Audit(lanes, console.DataFolder), memory, visitor, lasting);
        foreach (var lane in lanes)
            await lane.DisposeAsync();
    }

    /// <summary>Lets all examine, and looks at the service's memory every ten seconds.</summary>
    private static async Task<List<double>> ExamineAsync(LoadedLane[] lanes, int service, TimeSpan lasting)
    {
        var memory = new List<double>();
        var watch = Stopwatch.StartNew();
        var next = TimeSpan.Zero;
        while (watch.Elapsed < lasting)
        {
            // They do not begin all at once, as examiners do not.
            var begun = (int)Math.Min(lanes.Length, 1 + (lanes.Length * watch.Elapsed / TimeSpan.FromSeconds(10)));
            await StepAllAsync(lanes, lane => lane < begun);
            if (watch.Elapsed >= next)
            {
                next += TimeSpan.FromSeconds(10);
                memory.Add(IdleMeasure.ResidentMegabytes(service));
            }
        }

        return memory;
    }

    private static async Task StepUntilAsync(LoadedLane[] lanes, bool examines, Func<bool> isSo, string fault)
    {
        var watch = Stopwatch.StartNew();
        while (!isSo())
        {
            if (watch.Elapsed > Patience)
                throw new TimeoutException($"Within {Patience} {fault}.");
            await StepAllAsync(lanes, _ => examines);
        }
    }

    private static async Task StepAllAsync(LoadedLane[] lanes, Func<int, bool> examines)
    {
        var begin = Stopwatch.GetTimestamp();
        for (var lane = 0; lane < lanes.Length; lane++)
            await lanes[lane].StepAsync(examines(lane));
        var left = Beat - Stopwatch.GetElapsedTime(begin);
        if (left > TimeSpan.Zero)
            await Task.Delay(left);
    }

    private static AuditResult Audit(LoadedLane[] lanes, string dataFolder)
    {
        var journal = JournalText.ReadAll(dataFolder).Select(entry => entry.Entry).ToLookup(SerialOf);
        return lanes.Aggregate(AuditResult.None, (sum, lane) => sum + lane.Audit([.. journal[lane.Serial.Value]]));
    }

    private static string SerialOf(JournalEntry entry) =>
        entry switch
        {
            InstrumentReported reported => reported.Serial.Value,
            EventsLost lost => lost.Serial.Value,
            InstrumentMet met => met.Serial.Value,
            _ => "",
        };

    private static void Report(
        FigureFile figures,
        LoadedLane[] lanes,
        AuditResult audit,
        List<double> memory,
        ConsoleVisitor visitor,
        TimeSpan lasting
    )
    {
        var delays = Spread.Of(lanes.SelectMany(lane => lane.AcknowledgedAfter));
        var settled = (int)Math.Min(memory.Count - 1, Settling / TimeSpan.FromSeconds(10));
        var (page, board) = (Spread.Of(visitor.Page), Spread.Of(visitor.Lanes));
        figures.Set("instruments", lanes.Length);
        figures.Set("pace", Pace);
        figures.Set("seconds", lasting.TotalSeconds);
        figures.Set("exams", lanes.Sum(lane => lane.Exams));
        figures.Set("events", audit.Happened);
        figures.Set("events_per_s", audit.Happened / lasting.TotalSeconds);
        figures.Set("recorded", audit.Recorded);
        figures.Set("lost", audit.Lost + audit.InGap);
        figures.Set("doubled", audit.Doubled);
        figures.Set("false", audit.False);
        figures.Set("event_to_ack_p50_ms", delays.Median, 2);
        figures.Set("event_to_ack_p99_ms", delays.P99, 2);
        figures.Set("rss_start_mb", memory[settled]);
        figures.Set("rss_end_mb", memory[^1]);
        figures.Set("rss_mb_every_10_s", new JsonArray([.. memory.Select(mb => JsonValue.Create(Math.Round(mb, 1)))]));
        figures.Set("console_page_p50_ms", page.Median);
        figures.Set("console_page_p99_ms", page.P99);
        figures.Set("console_lanes_p50_ms", board.Median);
        figures.Set("console_lanes_p99_ms", board.P99);
        figures.Set("console_asked", page.Count + board.Count);
        System.Console.WriteLine(
            $"load: {lanes.Length} instruments, {audit.Happened} events, {audit.Recorded} recorded, {audit.Lost + audit.InGap} lost, "
                + $"{audit.Doubled} doubled, {audit.False} false; event to acknowledged {delays.Median:F1} ms, p99 {delays.P99:F1} ms; "
                + $"memory {memory[settled]:F0} to {memory[^1]:F0} MB; page {page.Median:F0} ms (p99 {page.P99:F0}), "
                + $"lanes {board.Median:F0} ms (p99 {board.P99:F0})"
        );
        foreach (var problem in audit.Problems.Take(10))
            System.Console.WriteLine($"  {problem}");
    }
}
