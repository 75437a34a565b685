using Microsoft.Playwright;
using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Browser.Looks;

/// <summary>One state of the lane as it looked.</summary>
/// <param name="State">What it showed.</param>
/// <param name="Light">How much light it gave.</param>
/// <param name="Texts">How many pieces of text were measured.</param>
/// <param name="Weak">Text that does not stand out from its ground.</param>
public sealed record LaneLook(string State, PixelLight Light, int Texts, IReadOnlyList<string> Weak);

/// <summary>
/// Shows the lane in every state that it comes to, from the empty lane to the lost service, in its default face and at 1920×1080, and
/// measures each from its pixels.
/// </summary>
public sealed class LaneTour(LanePage lane)
{
    private const string StateScript = """
        () => {
            const shown = (id) => document.getElementById(id)?.hidden === false;
            const ask = document.querySelector("[data-prompt-key]");
            const parts = [ask?.dataset.promptKey?.split("|")[1] || "no-exam"];
            for (const [eye, name] of [["right", "od"], ["left", "os"]]) {
                if (document.getElementById(eye)?.dataset.lit === "yes") parts.push(`${name}-lit`);
                if (document.getElementById(`${eye}-live-box`)?.dataset.state === "moving") parts.push(`${name}-moving`);
            }
            for (const id of ["lost", "trouble", "notice", "waiting", "drops-box", "before", "reminders", "gaps"]) {
                if (shown(id)) parts.push(id);
            }
            const dialog = document.querySelector("dialog[open]");
            if (dialog) parts.push(dialog.id);
            parts.push(document.getElementById("line")?.dataset.state ?? "");
            return parts.join(" ");
        }
        """;

    private readonly Dictionary<string, LaneLook> looks = [];

    /// <summary>Runs the tour with a service and an instrument of its own.</summary>
    /// <param name="chromium">The browser.</param>
    /// <param name="folder">An empty folder.</param>
    /// <returns>All states, and what must not have happened on the page.</returns>
    public static async Task<(IReadOnlyList<LaneLook> Looks, IReadOnlyList<string> Problems)> RunAsync(
        Chromium chromium,
        string folder
    )
    {
        ArgumentNullException.ThrowIfNull(chromium);
        var instrument = new SteeredLane(Path.Combine(folder, "lane"), InstrumentModels.QuayA, "QA-0801", 801);
        await using var toBeSwitchedOff = instrument.ConfigureAwait(false);
        var console = await ServedConsole.StartAsync(folder, [instrument.Link]).ConfigureAwait(false);
        await using var toBeStopped = console.ConfigureAwait(false);
        var visitor = await chromium.VisitAsync(console.Address).ConfigureAwait(false);
        await using var toBeClosed = visitor.ConfigureAwait(false);
        var page = await SignIn.OpenAsync(visitor, People.Examiner, $"/lane/{instrument.Serial}").ConfigureAwait(false);
        await page.Locator("#line[data-state=connected]").WaitForAsync().ConfigureAwait(false);
        using var lane = new LanePage(page);
        var tour = new LaneTour(lane);
        await tour.BeforeAsync().ConfigureAwait(false);
        await tour.ExamAsync(instrument).ConfigureAwait(false);
        await tour.AfterAsync(instrument, console).ConfigureAwait(false);
        return ([.. tour.looks.Values.OrderBy(l => l.State, StringComparer.Ordinal)], visitor.Problems);
    }

    /// <summary>The empty lane, the dialogs, a refused key, and what is missing.</summary>
    private async Task BeforeAsync()
    {
        await LookAsync().ConfigureAwait(false);
        foreach (var dialog in new[] { "NumpadAdd", "F2" })
            await DialogAsync(dialog).ConfigureAwait(false);
        await lane.ChoosePatientAsync("Q-1006").ConfigureAwait(false);
        await LookAsync().ConfigureAwait(false);
        await DialogAsync("e").ConfigureAwait(false);
        foreach (var key in new[] { "3", "Enter" })
        {
            await lane.PressAsync(key).ConfigureAwait(false);
            await lane.Page.Locator("#notice").WaitForAsync().ConfigureAwait(false);
            await LookAsync(key == "3" ? "refused-key" : "missing-named").ConfigureAwait(false);
        }

        await lane.PressAsync("Escape").ConfigureAwait(false);
    }

    /// <summary>A whole exam; a picture whenever the lane shows another state.</summary>
    private async Task ExamAsync(SteeredLane instrument)
    {
        using var end = new CancellationTokenSource(TimeSpan.FromMinutes(6));
        var exam = instrument.Seat(NamedScenarios.Find("light-near")!);
        var watching = WatchAsync(end.Token);
        await instrument.ExamineAsync(exam, new KeyedVoice(lane), end.Token).ConfigureAwait(false);
        await end.CancelAsync().ConfigureAwait(false);
        await watching.ConfigureAwait(false);
        await LookAsync("after-the-exam").ConfigureAwait(false);
    }

    /// <summary>The line lost, the instrument off, and the service lost.</summary>
    private async Task AfterAsync(SteeredLane instrument, ServedConsole console)
    {
        instrument.Served.Unplug();
        await LineAsync("lost").ConfigureAwait(false);
        instrument.Served.Replug();
        await LineAsync("connected").ConfigureAwait(false);
        instrument.Served.With(i =>
        {
            i.SwitchOff();
            return true;
        });
        await LineAsync("off").ConfigureAwait(false);
        console.Kill();
        await lane.Page.Locator("#lost:not([hidden])").WaitForAsync().ConfigureAwait(false);
        await LookAsync("service-lost").ConfigureAwait(false);
    }

    private async Task LineAsync(string state)
    {
        await lane.Page.Locator($"#line[data-state={state}]").WaitForAsync().ConfigureAwait(false);
        await LookAsync().ConfigureAwait(false);
    }

    private async Task DialogAsync(string key)
    {
        await lane.PressAsync(key).ConfigureAwait(false);
        await lane.Page.Locator("dialog[open]").WaitForAsync().ConfigureAwait(false);
        await LookAsync().ConfigureAwait(false);
        await lane.PressAsync("Escape").ConfigureAwait(false);
        await lane
            .Page.Locator("dialog[open]")
            .WaitForAsync(new() { State = WaitForSelectorState.Detached })
            .ConfigureAwait(false);
    }

    private async Task WatchAsync(CancellationToken end)
    {
        while (!end.IsCancellationRequested)
        {
            await LookAsync().ConfigureAwait(false);
            await Task.Delay(150, CancellationToken.None).ConfigureAwait(false);
        }
    }

    private async Task LookAsync(string? named = null)
    {
        var state = named ?? await lane.Page.EvaluateAsync<string>(StateScript).ConfigureAwait(false);
        if (looks.ContainsKey(state))
            return;
        var name = $"lane {state}".Replace(' ', '_');
        var (png, texts, weak) = await MeasureAsync(name).ConfigureAwait(false);
        // Where everything moved while the picture was taken, as when a dialog's list arrives, nothing was measured: look again.
        for (var again = 0; texts == 0 && again < 4; again++)
            (png, texts, weak) = await MeasureAsync(name).ConfigureAwait(false);
        looks[state] = new LaneLook(state, PixelLight.Of(png), texts, weak);
    }

    private Task<(byte[] Png, int Texts, IReadOnlyList<string> Weak)> MeasureAsync(string name) =>
        ContrastCheck.RunAsync(lane.Page, () => Screenshots.TakeAsync(lane.Page, name));
}
