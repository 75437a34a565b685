using PupilBridge.Browser;
using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Records;
using PupilBridge.Browser.Served;
using PupilBridge.Measure.Figures;
using PupilBridge.Measure.Idle;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Measure.Console;

/// <summary>
/// The console as an examiner meets it: two lanes live at once in a real browser, with exams in real time; keys counted, from the wire to
/// the pixel, memory; then the looks of the lane and of all pages.
/// </summary>
internal static class ConsoleMeasure
{
    private static readonly TimeSpan LongestExam = TimeSpan.FromMinutes(5);

    public static async Task RunAsync(FigureFile figures, string folder)
    {
        await using var chromium = await Chromium.StartAsync();
        await TwoLanesAsync(figures, Directory.CreateDirectory(Path.Combine(folder, "lanes")).FullName, chromium);
        await LooksMeasure.RunAsync(
            figures,
            Directory.CreateDirectory(Path.Combine(folder, "looks")).FullName,
            chromium
        );
    }

    private static async Task TwoLanesAsync(FigureFile figures, string folder, Chromium chromium)
    {
        (WireStamps Stamps, SteeredLane Lane)[] lanes = [Lane(folder, 0), Lane(folder, 1)];
        await using var console = await ServedConsole.StartAsync(folder, [.. lanes.Select(l => l.Lane.Link)]);
        await using var visitor = await chromium.VisitAsync(console.Address);
        await using var other = await chromium.VisitAsync(console.Address);
        using var first = await SitDownAsync(visitor, People.Examiner, lanes[0].Lane);
        using var second = await SitDownAsync(other, People.OtherExaminer, lanes[1].Lane);
        using var end = new CancellationTokenSource();
        var memory = Task.Run(() => HighestResidentAsync(console.ProcessId, end.Token));
        await Task.WhenAll(
            ExamineAsync(console, first, lanes[0].Lane, "normal", "Q-1001"),
            ExamineAsync(console, second, lanes[1].Lane, "right-rapd-marked", "Q-1003")
        );
        await end.CancelAsync();
        figures.Set("keys_normal_exam", first.Pressed.Count);
        figures.Set("keys_defect_exam", second.Pressed.Count);
        figures.Set("rss_two_lanes_mb", await memory);
        await WireToPixelAsync(figures, [(lanes[0].Stamps, first), (lanes[1].Stamps, second)]);
        foreach (var (_, lane) in lanes)
            await lane.DisposeAsync();
    }

    private static (WireStamps, SteeredLane) Lane(string folder, int index)
    {
        var stamps = new WireStamps(TimeProvider.System);
        var link = Path.Combine(folder, $"lane-{index}");
        return (stamps, new SteeredLane(link, InstrumentModels.QuayA, $"QA-070{index}", 700 + index, stamps.Note));
    }

    private static async Task<LanePage> SitDownAsync(Visitor visitor, string who, SteeredLane lane)
    {
        var page = await SignIn.OpenAsync(visitor, who, $"/lane/{lane.Serial}");
        await page.Locator("#line[data-state=connected]").WaitForAsync();
        return new LanePage(page);
    }

    private static async Task ExamineAsync(
        ServedConsole console,
        LanePage page,
        SteeredLane lane,
        string scenario,
        string patient
    )
    {
        await page.ChoosePatientAsync(patient);
        page.CountAnew();
        var number = (await page.AskedAsync()).Exam;
        await PaintWatch.BeginAsync(page.Page);
        using var patience = new CancellationTokenSource(LongestExam);
        var exam = lane.Seat(NamedScenarios.Find(scenario)!);
        var voice = new KeyedVoice(page);
        await lane.ExamineAsync(exam, voice, patience.Token);
        var wrong = RecordCheck.Compare(
            await console.AskAsync("exams", "show", $"{number}"),
            exam,
            patient,
            voice.Entered
        );
        if (wrong.Count > 0)
            throw new InvalidOperationException($"The record of {scenario} is wrong: {string.Join("; ", wrong)}");
    }

    private static async Task WireToPixelAsync(
        FigureFile figures,
        IReadOnlyList<(WireStamps Stamps, LanePage Page)> lanes
    )
    {
        var (events, positions, written) = (new List<double>(), new List<double>(), 0);
        foreach (var (stamps, page) in lanes)
        {
            var (difference, uncertainty) = await PaintWatch.CompareClocksAsync(page.Page, TimeProvider.System);
            if (Math.Abs(difference) > uncertainty + 1)
                throw new InvalidOperationException(
                    $"The browser's clock is {difference:F1} ms off; the times cannot be compared."
                );
            var frames = await PaintWatch.ReadAsync(page.Page);
            events.AddRange(stamps.Events(frames));
            positions.AddRange(stamps.Positions(frames));
            written += stamps.PositionsWritten;
        }

        if (events.Count < 100 || positions.Count < 100)
            throw new InvalidOperationException(
                $"Only {events.Count} events and {positions.Count} positions came onto the pages."
            );
        double[] all = [.. events, .. positions];
        figures.Set("wire_to_pixel_p50_ms", Percentile(all, 0.50));
        figures.Set("wire_to_pixel_p95_ms", Percentile(all, 0.95));
        figures.Set("wire_to_pixel_events", events.Count);
        figures.Set("wire_to_pixel_events_p95_ms", Percentile(events, 0.95));
        figures.Set("wire_to_pixel_positions", positions.Count);
        figures.Set("wire_to_pixel_positions_written", written);
        figures.Set("wire_to_pixel_positions_p95_ms", Percentile(positions, 0.95));
    }

    private static double Percentile(IEnumerable<double> values, double part)
    {
        var sorted = values.Order().ToArray();
        return sorted[(int)Math.Min(sorted.Length - 1, sorted.Length * part)];
    }

    private static async Task<double> HighestResidentAsync(int process, CancellationToken end)
    {
        var highest = 0.0;
        while (!end.IsCancellationRequested)
        {
            highest = Math.Max(highest, IdleMeasure.ResidentMegabytes(process));
            await Task.Delay(500, CancellationToken.None);
        }

        return highest;
    }
}
