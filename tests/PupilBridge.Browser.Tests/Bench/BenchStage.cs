using System.Text.Json;
using Microsoft.Playwright;
using PupilBridge.Browser.Looks;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;
using PupilBridge.Instrument;
using PupilBridge.Scenarios.Service;
using static Microsoft.Playwright.Assertions;

namespace PupilBridge.Browser.Tests.Bench;

/// <summary>A technician before the pages of the bench, with discs in one hand and an instrument in the other.</summary>
internal sealed class BenchStage(ServedConsole console, BenchLane lane, IPage page)
{
    /// <summary>The discs of the box, by name, in mm.</summary>
    public static IReadOnlyDictionary<string, double> Discs { get; } =
        new Dictionary<string, double>
        {
            ["D2"] = 2.001,
            ["D4"] = 4.002,
            ["D6"] = 5.998,
            ["D8"] = 8.003,
        };

    public IPage Page => page;

    /// <summary>Types the box of discs in from its certificate, every other disc by its expanded uncertainty.</summary>
    public async Task EnterDiscsAsync()
    {
        await Keyboard.TypeAsync(page, "#enter-discs-set", "Box 1");
        await Keyboard.TypeAsync(page, "#enter-discs-certificate", "K-2207/26");
        await Keyboard.TypeAsync(page, "#enter-discs-issuer", "Harbour Metrology");
        await page.FillAsync("#enter-discs-certified", "2026-05-04");
        await Keyboard.TypeAsync(page, "#enter-discs-common", "0.0004");
        foreach (var (row, (name, diameter)) in Discs.Select((disc, i) => (i + 1, disc)))
        {
            await Keyboard.TypeAsync(page, $"#enter-discs-name-{row}", name);
            await Keyboard.TypeAsync(page, $"#enter-discs-diameter-{row}", FormattableString.Invariant($"{diameter}"));
            if (row % 2 == 1)
            {
                await Keyboard.TypeAsync(page, $"#enter-discs-u-{row}", "0.0005");
            }
            else
            {
                await Keyboard.TypeAsync(page, $"#enter-discs-expanded-{row}", "0.001");
                await Keyboard.TypeAsync(page, $"#enter-discs-k-{row}", "2");
            }
        }

        await Keyboard.FollowAsync(page, "#enter-discs button[type=submit]");
        await Expect(page.Locator(".said")).ToContainTextAsync("D4: 4.002 mm, u = 0.0005 mm");
    }

    /// <summary>Begins a calibration with all discs and three readings each.</summary>
    public async Task BeginAsync()
    {
        await ToBeginningAsync();
        await Expect(page.Locator(".rule")).ToContainTextAsync("0.1 mm");
        await Keyboard.TypeAsync(page, "#begin-run-repeats", "3");
        await Keyboard.TypeAsync(page, "#begin-run-temperature", "21.5");
        await SendBeginningAsync();
    }

    /// <summary>Begins another kind of run.</summary>
    /// <param name="kind">The kind, as the page's address names it.</param>
    /// <param name="repeats">How often; null where it is not asked.</param>
    public async Task BeginAsync(string kind, int? repeats)
    {
        await ToBeginningAsync();
        await Keyboard.FollowAsync(page, $".choices a[href*='kind={kind}']");
        if (repeats is { } times)
        {
            await Keyboard.TypeAsync(page, "#begin-run-repeats", FormattableString.Invariant($"{times}"));
        }

        await SendBeginningAsync();
    }

    private async Task ToBeginningAsync()
    {
        await page.GotoAsync("/bench");
        var begin = page.Locator($"a[href='/bench/begin/{lane.Serial}']");
        for (var tries = 0; tries < 60 && await begin.CountAsync() == 0; tries++)
        {
            await page.WaitForTimeoutAsync(500);
            await page.ReloadAsync();
        }

        await Keyboard.FollowAsync(page, $"a[href='/bench/begin/{lane.Serial}']");
    }

    private async Task SendBeginningAsync()
    {
        await Keyboard.FollowAsync(page, "#begin-run button[type=submit]");
        await Expect(page.Locator("#follow-words")).ToContainTextAsync("follows the instrument");
    }

    /// <summary>How many readings count by the page.</summary>
    public async Task<int> DoneAsync() =>
        int.Parse((await page.Locator(".asked").GetAttributeAsync("data-done"))!, null);

    /// <summary>Measures what the page asks for, and waits until the page shows by itself that it counts.</summary>
    /// <returns>False when nothing is asked for any more.</returns>
    public async Task<bool> MeasureAskedAsync(CancellationToken cancel)
    {
        var asked = page.Locator("#asked-words");
        if (await asked.GetAttributeAsync("data-disc") is not { } disc)
        {
            return false;
        }

        var done = await DoneAsync();
        var eye = await asked.GetAttributeAsync("data-eye") == "OD" ? Eye.Right : Eye.Left;
        await lane.MeasureAsync(eye, Discs[disc], cancel);
        await page.Locator($".asked[data-done='{done + 1}']").WaitForAsync();
        return true;
    }

    /// <summary>
    /// Sets the edges of a person's pupil as often as the page asks, in the room light that it asks for, and waits each time until the page
    /// shows that the setting counts.
    /// </summary>
    /// <param name="bright">The pupil in bright light, in mm.</param>
    /// <param name="dim">In dim light, in mm.</param>
    /// <param name="cancel">Gives up waiting.</param>
    /// <returns>How many settings were asked for.</returns>
    public async Task<int> MeasurePupilsAsync(double bright, double dim, CancellationToken cancel)
    {
        string? room = null;
        var asked = page.Locator("#asked-words");
        var count = 0;
        while (await asked.GetAttributeAsync("data-light") is { } light)
        {
            if (light != room)
            {
                lane.SetRoom(isDim: light == "dim");
                room = light;
            }

            var done = await DoneAsync();
            var eye = await asked.GetAttributeAsync("data-eye") == "OD" ? Eye.Right : Eye.Left;
            await lane.MeasureAsync(eye, light == "dim" ? dim : bright, cancel);
            await page.Locator($".asked[data-done='{done + 1}']").WaitForAsync();
            count++;
        }

        return count;
    }

    /// <summary>Finishes the run.</summary>
    public async Task FinishAsync()
    {
        await Keyboard.FollowAsync(page, "#finish button[type=submit]");
        await Expect(page.Locator(".asked-words")).ToContainTextAsync("Finished");
    }

    /// <summary>Measures by the scale that is not asked for: the page must say so and go on asking the same.</summary>
    public async Task MeasureByOtherScaleAsync(CancellationToken cancel)
    {
        var asked = page.Locator("#asked-words");
        var (words, done) = (await asked.TextContentAsync(), await DoneAsync());
        var other = await asked.GetAttributeAsync("data-eye") == "OD" ? Eye.Left : Eye.Right;
        await lane.MeasureAsync(other, 3, cancel);
        await page.Locator(".asked[data-other='1']").WaitForAsync();
        await Expect(page.Locator(".last-reading")).ToContainTextAsync("by the other scale");
        Assert.Equal((words, done), (await asked.TextContentAsync(), await DoneAsync()));
    }

    /// <summary>Sets the reading of one disc by one scale aside, with a reason; its step is asked for again.</summary>
    public async Task SetAsideAsync(string disc, string scale)
    {
        var done = await DoneAsync();
        var row = page.Locator("tr.reading-counts", new() { HasText = scale }).Filter(new() { HasText = disc });
        var way = await row.Locator("a[href$='#mark-reading']").GetAttributeAsync("href");
        await Keyboard.FollowAsync(page, $"a[href='{way}']");
        await Keyboard.TypeAsync(page, "#mark-reason", "the disc stood askew in the holder");
        await Keyboard.FollowAsync(page, "#mark button[type=submit]");
        await Expect(page.Locator("tr.reading-set-aside .reason")).ToContainTextAsync("askew");
        Assert.Equal(done - 1, await DoneAsync());
    }

    /// <summary>Finishes, looks at the draft, and issues the certificate.</summary>
    public async Task IssueAsync()
    {
        await Keyboard.FollowAsync(page, "#finish button[type=submit]");
        await Keyboard.FollowAsync(page, "a.next-step");
        await Expect(page.Locator(".draft-mark")).ToContainTextAsync("not issued");
        await KeepAsync("bench-draft");
        await Keyboard.FollowAsync(page, "#issue button[type=submit]");
        await Expect(page.Locator(".said")).ToContainTextAsync("issued");
        await Keyboard.FollowAsync(page, "a[href='/bench/certificates/1']");
    }

    /// <summary>The certificate as it was issued.</summary>
    public async Task<JsonElement> CertificateAsync()
    {
        var answer = await page.Context.APIRequest.GetAsync(
            new Uri(console.Address, "/bench/certificates/1/certificate.json").ToString()
        );
        Assert.Equal(200, answer.Status);
        return (await answer.JsonAsync())!.Value;
    }

    /// <summary>Keeps pictures of the page in both faces, and holds it against what is asked of every page.</summary>
    public async Task KeepAsync(string name)
    {
        foreach (var face in new[] { "light", "dark" })
        {
            await page.Context.AddCookiesAsync([
                new Cookie
                {
                    Name = "face",
                    Value = face,
                    Url = console.Address.ToString(),
                },
            ]);
            await page.GotoAsync(page.Url.Split('#')[0]);
            await Screenshots.TakeAsync(page, $"{name}-{face}", whole: true);
            var found = await AxeCheck.RunAsync(page);
            Assert.True(found.Count == 0, $"{name} ({face}): {string.Join("; ", found)}");
            if (face == "dark")
            {
                Assert.True(
                    PixelLight.Of(await page.ScreenshotAsync()).Mean <= PixelLight.DimMean,
                    $"{name} is bright."
                );
            }
        }
    }
}
