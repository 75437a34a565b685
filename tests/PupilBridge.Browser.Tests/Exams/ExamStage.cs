using System.Text.Json;
using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Scenarios;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>Everything that an exam needs: the real service, instruments before it, and examiners before the browser.</summary>
public sealed class ExamStage : IAsyncDisposable
{
    private static readonly Lock KeysFile = new();
    private readonly ITestOutputHelper output;
    private readonly Chromium chromium;
    private readonly List<Visitor> visitors = [];
    private readonly List<LanePage> pages = [];

    private ExamStage(
        ITestOutputHelper output,
        Chromium chromium,
        ServedConsole console,
        IReadOnlyList<SteeredLane> lanes
    ) => (this.output, this.chromium, Console, Lanes) = (output, chromium, console, lanes);

    /// <summary>The service.</summary>
    public ServedConsole Console { get; }

    /// <summary>The instruments.</summary>
    public IReadOnlyList<SteeredLane> Lanes { get; }

    /// <summary>
    /// Sets the stage, lets a test play on it, and tells all that helps if it fails. In the end nothing may have gone wrong in a browser,
    /// and the journal must hold all that happened.
    /// </summary>
    public static async Task PlayAsync(
        ITestOutputHelper output,
        ChromiumFixture fixture,
        IReadOnlyList<InstrumentModel> models,
        Func<ExamStage, Task> play,
        params string[] settings
    )
    {
        var folder = Directory.CreateTempSubdirectory("pb-exam-").FullName;
        var lanes = models
            .Select((m, i) => new SteeredLane(Path.Combine(folder, $"lane-{i}"), m, $"QA-06{i:00}", 600 + i))
            .ToArray();
        try
        {
            var console = await ServedConsole.StartAsync(folder, [.. lanes.Select(l => l.Link)], settings);
            await using var stage = new ExamStage(output, fixture.Chromium, console, lanes);
            await stage.TryAsync(play);
        }
        finally
        {
            foreach (var lane in lanes)
                await lane.DisposeAsync();
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The same with one instrument, before which an examiner has sat down and chosen a patient.</summary>
    public static Task PlayAsync(
        ITestOutputHelper output,
        ChromiumFixture fixture,
        InstrumentModel model,
        string patient,
        Func<Sitting, Task> play,
        params string[] settings
    ) =>
        PlayAsync(
            output,
            fixture,
            [model],
            async stage =>
            {
                var sitting = new Sitting(stage, stage.Lanes[0], await stage.SitDownAsync(stage.Lanes[0]), patient);
                await sitting.ChooseAsync();
                await play(sitting);
            },
            settings
        );

    /// <summary>A named person and examiner of the simulator.</summary>
    public static Scenario Named(string name) =>
        NamedScenarios.Find(name) ?? throw new ArgumentException($"No scenario {name}.");

    /// <summary>Prints how many keys an exam took: in the test's own output, and in a file that the test command shows at its end.</summary>
    public void TellKeys(string exam, IReadOnlyList<string> keys)
    {
        var line = $"keys after the patient was chosen, {exam}: {keys.Count} ({string.Join(' ', keys)})";
        output.WriteLine(line);
        var file = Path.Combine(Screenshots.Folder, "..", "keys.txt");
        lock (KeysFile)
            File.AppendAllText(file, line + "\n");
    }

    /// <summary>An examiner sits down at a lane.</summary>
    public async Task<LanePage> SitDownAsync(SteeredLane lane, string who = People.Examiner)
    {
        var visitor = await chromium.VisitAsync(Console.Address);
        visitors.Add(visitor);
        var page = await SignIn.OpenAsync(visitor, who, $"/lane/{lane.Serial}");
        await page.Locator("#line[data-state=connected]").WaitForAsync();
        pages.Add(new LanePage(page));
        return pages[^1];
    }

    /// <summary>Opens a page again in the browser whose tab was closed.</summary>
    public Task<Microsoft.Playwright.IPage> OpenAgainAsync(LanePage page, string path) =>
        visitors[pages.IndexOf(page)].OpenAsync(path);

    /// <summary>An exam as the program's own command shows it.</summary>
    public Task<JsonElement> ShowAsync(long exam) =>
        Console.AskAsync("exams", "show", exam.ToString(System.Globalization.CultureInfo.InvariantCulture));

    /// <summary>All exams, the latest first.</summary>
    public async Task<JsonElement[]> ListAsync() =>
        [.. (await Console.AskAsync("exams", "list")).GetProperty("exams").EnumerateArray()];

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        foreach (var page in pages)
            page.Dispose();
        foreach (var visitor in visitors)
            await visitor.DisposeAsync();
        await Console.DisposeAsync();
    }

    /// <summary>Waits until the service has acknowledged all events, stops it, and holds its journal against what happened.</summary>
    private async Task AuditAsync()
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        foreach (var lane in Lanes)
            await lane.Served.WhenAllAcknowledgedAsync(patience.Token);
        Console.Stop();
        foreach (var lane in Lanes)
        {
            var audit = lane.Audit(Console.DataFolder, settled: true);
            Assert.True(audit.Problems.Count == 0, string.Join("; ", audit.Problems));
            Assert.Equal(audit.Happened, audit.Recorded);
        }
    }

    private async Task TryAsync(Func<ExamStage, Task> play)
    {
        try
        {
            await play(this);
            Assert.Empty(visitors.SelectMany(v => v.Problems));
            await AuditAsync();
        }
        catch
        {
            output.WriteLine($"The service said:\n{Console.Said}");
            output.WriteLine(string.Join("\n", visitors.SelectMany(v => v.Problems)));
            foreach (var page in pages.Where(p => !p.Page.IsClosed))
            {
                var picture = await Screenshots.OfFailureAsync(page.Page);
                output.WriteLine($"{picture}, keys {string.Join(' ', page.Pressed)}");
            }

            throw;
        }
    }
}
