using System.Globalization;
using PupilBridge.Browser.Pixels;
using PupilBridge.Browser.Served;
using PupilBridge.Instrument;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Scenarios;
using Xunit.Abstractions;
using static Microsoft.Playwright.Assertions;

namespace PupilBridge.Browser.Tests.Bench;

/// <summary>A technician's other runs in a browser: the daily check, a study on a person, the timing of stimuli.</summary>
public sealed class OtherRunsTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>,
        IDisposable
{
    private const string Serial = "QA-0702";

    /// <summary>The right scale reads 60 µm too much everywhere, the left one is true.</summary>
    private static readonly PerEye<ScaleError> Truth = new() { Right = new(0.060, 1), Left = new(0, 1) };

    private readonly string folder = Directory.CreateTempSubdirectory("pb-bench-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public Task A_quick_check_says_how_far_each_scale_is_off_and_stands_in_the_drift() =>
        AtTheBenchAsync(
            702,
            async (stage, lane, cancel) =>
            {
                await stage.EnterDiscsAsync();
                await stage.BeginAsync("quick-check", 4);
                while (await stage.MeasureAskedAsync(cancel))
                {
                    // The page asks for the next.
                }

                Assert.Equal(8, await stage.DoneAsync());
                await stage.FinishAsync();
                await stage.KeepAsync("bench-quick-check");
                await stage.Page.GotoAsync($"/bench/drift/{lane.Serial}");
                var row = stage.Page.Locator("section[aria-labelledby=runs] tbody tr");
                await Expect(row).ToHaveCountAsync(1);
                await Expect(row).ToContainTextAsync("Quick check");
                // Kind, begun, by, state, the two scales, certificate.
                var found = await row.Locator("td.figure").AllTextContentsAsync();
                output.WriteLine(string.Join(" | ", found));
                // The mean of four readings, each of two edges that scatter by 10 µm: a standard deviation of 7 µm.
                Assert.InRange(Millimetres(found[0]), 0.06 - 0.03, 0.06 + 0.03);
                Assert.InRange(Millimetres(found[1]), -0.03, 0.03);
                await stage.KeepAsync("bench-drift");
            }
        );

    [Fact]
    public Task A_study_on_a_person_is_adopted_and_counts_from_then_on() =>
        AtTheBenchAsync(
            703,
            async (stage, lane, cancel) =>
            {
                await stage.BeginAsync("live-repeatability", 3);
                // Three settings of each eye in each light.
                Assert.Equal(12, await stage.MeasurePupilsAsync(3.1, 5.6, cancel));
                await stage.FinishAsync();
                await stage.KeepAsync("bench-study");
                await Keyboard.FollowAsync(stage.Page, "#adopt button[type=submit]");
                await Expect(stage.Page.Locator(".said")).ToBeVisibleAsync();
                await Expect(stage.Page.Locator("#adopt")).ToHaveCountAsync(0);
                await stage.Page.GotoAsync("/bench");
                var card = stage.Page.Locator(".bench-card");
                await Expect(card).ToContainTextAsync("standard deviation of settings");
                output.WriteLine(await card.InnerTextAsync());
            }
        );

    [Fact]
    public Task A_timing_run_follows_the_blocks_and_says_whether_the_stimuli_keep_the_profiles_time() =>
        AtTheBenchAsync(
            704,
            async (stage, lane, cancel) =>
            {
                await stage.BeginAsync("timing", null);
                await lane.ExamineAsync(NamedScenarios.Find("normal")!, cancel);
                await lane.Served.WhenAllAcknowledgedAsync(cancel);
                await Expect(stage.Page.Locator("#asked-words")).ToContainTextAsync("All blocks are there");
                await stage.FinishAsync();
                var rows = stage.Page.Locator("section[aria-labelledby=timing] tbody tr");
                // Three blocks, two eyes.
                await Expect(rows).ToHaveCountAsync(6);
                foreach (var row in await rows.AllAsync())
                {
                    var cells = await row.Locator("td").AllInnerTextsAsync();
                    output.WriteLine(string.Join(" | ", cells));
                    Assert.True(int.Parse(cells[1], CultureInfo.InvariantCulture) >= 2);
                    Assert.Equal("within", cells[5]);
                }

                await stage.KeepAsync("bench-timing");
            }
        );

    private static double Millimetres(string shown) =>
        double.Parse(shown.Replace("mm", "", StringComparison.Ordinal).Replace('−', '-'), CultureInfo.InvariantCulture);

    private async Task AtTheBenchAsync(long seed, Func<BenchStage, BenchLane, CancellationToken, Task> work)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(10));
        await using var lane = new BenchLane(
            Path.Combine(folder, "lane-0"),
            InstrumentModels.QuayA,
            Serial,
            seed,
            Truth
        );
        await using var console = await ServedConsole.StartAsync(folder, [lane.Link]);
        await using var visitor = await fixture.Chromium.VisitAsync(console.Address, 1280, 900);
        var page = await SignIn.OpenAsync(visitor, People.Technician, "/bench/discs");
        try
        {
            await work(new BenchStage(console, lane, page), lane, patience.Token);
            Assert.Empty(visitor.Problems);
        }
        catch
        {
            output.WriteLine($"The service said:\n{console.Said}");
            output.WriteLine(
                $"{page.Url} {await Screenshots.OfFailureAsync(page, whole: true)} {string.Join("; ", visitor.Problems)}"
            );
            throw;
        }
    }
}
