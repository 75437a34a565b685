using PupilBridge.Browser.Lanes;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;
using static PupilBridge.Simulator.Examiners.SpokenJudgement;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>Both direct responses are poor, so that the near response is due in both eyes.</summary>
public sealed class NearDueTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    /// <summary>Keeps what a reader of the screen is told.</summary>
    private const string Listen = """
        () => {
            const line = document.getElementById("heard");
            window.told = [];
            new MutationObserver(() => window.told.push(line.textContent)).observe(line, { childList: true, characterData: true, subtree: true });
            return line.getAttribute("aria-live");
        }
        """;

    [Fact]
    public Task The_near_response_is_asked_for_in_both_eyes_recorded_and_announced_politely() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            InstrumentModels.QuayA,
            "Q-1006",
            async sitting =>
            {
                var page = sitting.Page.Page;
                Assert.Equal("polite", await page.EvaluateAsync<string>(Listen));
                await sitting.ExamineAsync(ExamStage.Named("light-near"), new KeyedVoice(sitting.Page));
                Assert.Equal(2, sitting.Exam.Spoken.OfType<NearGraded>().Count());
                var shown = await sitting.RecordAsync();
                var chart = shown.GetProperty("summary").GetProperty("chartLine").GetString();
                Assert.DoesNotContain("Near: OD (right) not examined", chart, StringComparison.Ordinal);
                var told = string.Join("\n", await page.EvaluateAsync<string[]>("() => window.told"));
                foreach (
                    var words in new[]
                    {
                        "Are both pupils round?",
                        "Grade OD (right), direct",
                        "Which eye lets go?",
                        "Grade OS (left), near",
                    }
                )
                    Assert.Contains(words, told, StringComparison.Ordinal);
            }
        );
}
