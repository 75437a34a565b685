using Microsoft.Playwright;
using PupilBridge.Browser.Lanes;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;
using static PupilBridge.Simulator.Examiners.SpokenJudgement;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>The service is killed without a word while a grade is typed, and started again.</summary>
public sealed class KilledServiceTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>
{
    private static readonly LocatorAssertionsToBeVisibleOptions Patient = new() { Timeout = 90_000 };
    private static readonly LocatorAssertionsToBeHiddenOptions PatientHidden = new() { Timeout = 90_000 };

    [Fact]
    public Task The_grade_waits_on_the_page_and_is_recorded_once_when_the_service_is_back() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            InstrumentModels.QuayA,
            "Q-1001",
            async sitting =>
            {
                var killed = false;
                var voice = new KeyedVoice(sitting.Page)
                {
                    Instead = async said =>
                    {
                        if (said is not LightGraded { Lit: Eye.Right } graded)
                            return false;
                        killed = true;
                        await KillWhileTypedAsync(sitting.Stage, sitting.Page, graded.Grade);
                        return true;
                    },
                };
                await sitting.ExamineAsync(ExamStage.Named("normal"), voice);
                Assert.True(killed);
                await sitting.RecordAsync();
            }
        );

    private static async Task KillWhileTypedAsync(ExamStage stage, LanePage page, int grade)
    {
        var stood = await page.UntilAskedAsync(
            asked => asked.What == "grade-direct" && asked.Eye == "OD",
            "grade direct OD"
        );
        await page.Page.Keyboard.DownAsync($"{grade}");
        stage.Console.Kill();
        await page.Page.Keyboard.UpAsync($"{grade}");
        var waiting = page.Page.Locator("#waiting li[data-state=waiting]");
        await Assertions.Expect(waiting.First).ToBeVisibleAsync(Patient);
        await Assertions.Expect(page.Page.Locator("#lost")).ToBeVisibleAsync(Patient);
        Assert.Equal(stood, await page.AskedAsync());
        await stage.Console.StartAgainAsync();
        await Assertions.Expect(page.Page.Locator("#lost")).ToBeHiddenAsync(PatientHidden);
        await Assertions.Expect(waiting).ToHaveCountAsync(0, new() { Timeout = 90_000 });
        await page.UntilAskedAsync(asked => asked.Key != stood.Key, "anything after the grade was recorded");
    }
}
