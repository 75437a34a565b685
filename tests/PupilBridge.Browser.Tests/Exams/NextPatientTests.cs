using Microsoft.Playwright;
using PupilBridge.Browser.Lanes;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;
using static PupilBridge.Simulator.Examiners.SpokenJudgement;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>The next patient is begun without the last exam having been closed.</summary>
public sealed class NextPatientTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    [Fact]
    public Task Each_patient_has_what_was_measured_and_judged_of_them_and_Enter_names_what_is_missing() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            [InstrumentModels.QuayA],
            async stage =>
            {
                var page = await stage.SitDownAsync(stage.Lanes[0]);
                var first = new Sitting(stage, stage.Lanes[0], page, "Q-1008");
                await UntilShapesAsync(first, page, "irregular");
                var second = new Sitting(stage, stage.Lanes[0], page, "Q-1009");
                await UntilShapesAsync(second, page, "child");
                await Assertions.Expect(page.Page.Locator("#before-words")).ToContainTextAsync("Q-1008");
                await AcceptMissingAsync(page);

                await first.RecordAsync("open");
                await second.RecordAsync();
                Assert.Equal(2, (await stage.ListAsync()).Length);
            }
        );

    /// <summary>Sizes in bright light and both shapes; there the exam is left.</summary>
    private static async Task UntilShapesAsync(Sitting sitting, LanePage page, string scenario)
    {
        await sitting.ChooseAsync();
        using var enough = new CancellationTokenSource();
        var voice = new KeyedVoice(page);
        var entering = new KeyedVoice(page)
        {
            Instead = async judgement =>
            {
                Assert.IsType<ShapeSeen>(judgement);
                await voice.SayAsync(judgement, CancellationToken.None);
                if (voice.Entered.Count == 2)
                    await enough.CancelAsync();
                return true;
            },
        };
        await sitting.ExamineAsync(ExamStage.Named(scenario), entering, enough.Token);
        Assert.Equal(2, voice.Entered.Count);
    }

    private static async Task AcceptMissingAsync(LanePage page)
    {
        var asked = await page.AskedAsync();
        await page.UntilRecordedAsync();
        await page.PressAsync("Enter");
        await Assertions.Expect(page.Page.Locator("#notice[data-kind=asks] li").First).ToBeVisibleAsync();
        Assert.Equal(asked.Exam, (await page.AskedAsync()).Exam);
        await Task.Delay(600);
        await page.PressAsync("Enter");
        await page.UntilAskedAsync(now => now.Key != asked.Key, "anything after what is missing was accepted");
    }
}
