using Microsoft.Playwright;
using PupilBridge.Browser.Lanes;
using PupilBridge.Instrument;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>The cable comes out while a scale is slid, and is put back.</summary>
public sealed class UnplugTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    private static readonly LocatorAssertionsToBeVisibleOptions Patient = new() { Timeout = 60_000 };

    [Fact]
    public Task What_was_measured_meanwhile_is_in_the_record() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            InstrumentModels.QuayA,
            "Q-1007",
            async sitting =>
            {
                var cable = PullAsync(sitting.Lane, sitting.Page);
                await sitting.ExamineAsync(ExamStage.Named("anisocoria"), new KeyedVoice(sitting.Page));
                await cable;
                var shown = await sitting.RecordAsync();
                var incidents = shown
                    .GetProperty("incidents")
                    .EnumerateArray()
                    .Select(i => i.GetProperty("what").GetString())
                    .ToArray();
                Assert.Contains("The line was lost.", incidents);
                Assert.Contains("The line came back.", incidents);
            }
        );

    private static async Task PullAsync(SteeredLane lane, LanePage page)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(2));
        await lane.UntilAsync(i => i.IsScaleMoving(Eye.Left), patience.Token);
        lane.Served.Unplug();
        await Assertions.Expect(page.Page.Locator("#line[data-state=lost]")).ToBeVisibleAsync(Patient);
        // It slid on, came to rest and was marked with nobody at the other end.
        await lane.UntilAsync(i => !i.IsAllAcknowledged, patience.Token);
        lane.Served.Replug();
        await Assertions.Expect(page.Page.Locator("#line[data-state=connected]")).ToBeVisibleAsync(Patient);
    }
}
