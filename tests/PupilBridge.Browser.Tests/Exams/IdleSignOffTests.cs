using Microsoft.Playwright;
using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Served;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>The examiner is signed off by itself while nothing happens for long, in the middle of an exam.</summary>
public sealed class IdleSignOffTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    // Shorter than the time in which the eyes are left in the dark, longer than any other pause of the exam.
    private const string Idle = "Web:IdleSignOffMinutes=0.4";
    private static readonly TimeSpan InTheDark = TimeSpan.FromSeconds(45);

    [Fact]
    public Task The_exam_goes_on_and_is_finished_after_signing_in_again() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            InstrumentModels.QuayA,
            "Q-1001",
            async sitting =>
            {
                var back = SignInAgainAsync(sitting.Page);
                var normal = ExamStage.Named("normal");
                var patient = normal with { Examiner = normal.Examiner with { DarkWait = InTheDark } };
                await sitting.ExamineAsync(patient, new KeyedVoice(sitting.Page));
                await back;
                await sitting.RecordAsync();
            },
            Idle
        );

    private static async Task SignInAgainAsync(LanePage page)
    {
        var dialog = page.Page.Locator("#examiner-dialog[open]");
        await Assertions.Expect(dialog).ToBeVisibleAsync(new() { Timeout = 120_000 });
        await Assertions.Expect(page.Page.Locator("#examiner-password")).ToBeFocusedAsync();
        await page.Page.Keyboard.TypeAsync(ServedConsole.Password);
        await page.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(dialog).ToBeHiddenAsync(new() { Timeout = 60_000 });
    }
}
