using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Records;
using PupilBridge.Browser.Served;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Browser.Storms;

/// <summary>
/// Kills the real service (SIGKILL) again and again while an examiner works by keys at the lane in a real browser, and starts it each time. The
/// page stays open throughout. Each record is held against what was true of the simulated person and what was typed, and the journal
/// against what happened at the instrument.
/// </summary>
public static class ConsoleKillStorm
{
    private static readonly string[] Scenarios = ["normal", "left-rapd", "anisocoria", "irregular"];
    private static readonly TimeSpan LongestExam = TimeSpan.FromMinutes(15);
    private static readonly TimeSpan Rest = TimeSpan.FromSeconds(90);

    /// <summary>Runs it: one exam after the other until there were enough kills, at the pace of life.</summary>
    /// <param name="chromium">The browser.</param>
    /// <param name="folder">An empty folder.</param>
    /// <param name="kills">How often to kill.</param>
    /// <param name="seed">Chooses the moments.</param>
    public static async Task<ConsoleStormResult> RunAsync(Chromium chromium, string folder, int kills, int seed)
    {
        ArgumentNullException.ThrowIfNull(chromium);
        await using var lane = new SteeredLane(Path.Combine(folder, "lane"), InstrumentModels.QuayA, "QA-0680", seed);
        await using var console = await ServedConsole.StartAsync(folder, [lane.Link]).ConfigureAwait(false);
        await using var visitor = await chromium.VisitAsync(console.Address).ConfigureAwait(false);
        var tab = await SignIn.OpenAsync(visitor, People.Examiner, $"/lane/{lane.Serial}").ConfigureAwait(false);
        await tab.Locator("#line[data-state=connected]").WaitForAsync().ConfigureAwait(false);
        using var page = new LanePage(tab);
        var hand = new KillingHand(console, lane, page, kills, seed);
        var (exams, judgements, problems) = (0, 0, new List<string>());
        while (hand.Kills < kills)
        {
            var scenario = NamedScenarios.Find(Scenarios[exams % Scenarios.Length])!;
            var (typed, wrong) = await ExamineAsync(console, lane, page, hand, scenario).ConfigureAwait(false);
            exams++;
            judgements += typed;
            problems.AddRange(wrong.Select(w => $"exam {exams} ({scenario.Name}): {w}"));
        }

        problems.AddRange(visitor.Problems);
        var events = await AuditAsync(console, lane, problems).ConfigureAwait(false);
        return new ConsoleStormResult(
            hand.Kills,
            hand.WithAnswerWaiting,
            hand.WithEventsUnderWay,
            exams,
            judgements,
            events,
            problems
        );
    }

    private static async Task<(int Typed, IReadOnlyList<string> Wrong)> ExamineAsync(
        ServedConsole console,
        SteeredLane lane,
        LanePage page,
        KillingHand hand,
        Scenario scenario
    )
    {
        var before = (await page.AskedAsync().ConfigureAwait(false)).Exam;
        await page.ChoosePatientAsync(scenario.PatientNumber).ConfigureAwait(false);
        var asked = await page.UntilAskedAsync(a => a.Exam > 0 && a.Exam != before, "a new exam").ConfigureAwait(false);
        var exam = lane.Seat(scenario);
        var voice = new KeyedVoice(page) { SpeaksConsensual = false, Instead = hand.HearAsync };
        using var patience = new CancellationTokenSource(LongestExam);
        using var over = new CancellationTokenSource();
        var killing = hand.RunAsync(over.Token);
        try
        {
            await lane.ExamineAsync(exam, voice, patience.Token).ConfigureAwait(false);
        }
        finally
        {
            await over.CancelAsync().ConfigureAwait(false);
            await killing.ConfigureAwait(false);
        }

        await page.UntilRecordedAsync().ConfigureAwait(false);
        var shown = await console.AskAsync("exams", "show", $"{asked.Exam}").ConfigureAwait(false);
        List<string> wrong = [.. RecordCheck.Compare(shown, exam, scenario.PatientNumber, voice.Entered)];
        var status = shown.GetProperty("summary").GetProperty("status").GetString();
        if (status != "ready-for-review")
            wrong.Add($"it was made ready for review by key, and is {status}");
        return (voice.Entered.Count, wrong);
    }

    private static async Task<long> AuditAsync(ServedConsole console, SteeredLane lane, List<string> problems)
    {
        using var patience = new CancellationTokenSource(Rest);
        await lane.Served.WhenAllAcknowledgedAsync(patience.Token).ConfigureAwait(false);
        console.Stop();
        var audit = lane.Audit(console.DataFolder, settled: true);
        problems.AddRange(audit.Problems);
        if (audit.Recorded != audit.Happened)
            problems.Add($"{audit.Happened} events happened and {audit.Recorded} are recorded");
        return audit.Happened;
    }
}
