using Microsoft.Playwright;
using PupilBridge.Browser.Lanes;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>An exam with an afferent defect of the right eye.</summary>
public sealed class DefectTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    [Fact]
    public Task An_afferent_defect_stands_in_the_record_and_wants_a_clinician_before_drops() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            InstrumentModels.QuayA,
            "Q-1003",
            async sitting =>
            {
                await sitting.ExamineAsync(ExamStage.Named("right-rapd-marked"), new KeyedVoice(sitting.Page));
                sitting.Stage.TellKeys("an exam with an afferent defect", sitting.Page.Pressed);
                var shown = await sitting.RecordAsync();
                var chart = shown.GetProperty("summary").GetProperty("chartLine").GetString();
                Assert.Contains("RAPD OD (right) seen", chart, StringComparison.Ordinal);
                Assert.InRange(sitting.Page.Pressed.Count, 6, 12);
                await Assertions
                    .Expect(sitting.Page.Page.Locator("#drops li, #before-drops li").First)
                    .ToBeVisibleAsync();
            }
        );
}
