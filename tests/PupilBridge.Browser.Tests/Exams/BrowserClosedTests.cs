using PupilBridge.Browser.Lanes;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using Xunit.Abstractions;
using static PupilBridge.Simulator.Examiners.SpokenJudgement;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>The browser is closed in the middle of the exam, and opened again after more of it has happened.</summary>
public sealed class BrowserClosedTests(ChromiumFixture fixture, ITestOutputHelper output)
    : IClassFixture<ChromiumFixture>
{
    [Fact]
    public Task The_exam_goes_on_and_the_question_that_stood_stands_again() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            InstrumentModels.QuayB,
            "Q-1004",
            async sitting =>
            {
                var (lane, page) = (sitting.Lane, sitting.Page);
                var closed = false;
                var voice = new KeyedVoice(page)
                {
                    Instead = async said =>
                    {
                        if (said is LightGraded { Lit: Eye.Right } && !closed)
                        {
                            closed = true;
                            var stood = await page.UntilAskedAsync(
                                asked => asked.What == "grade-direct",
                                "grade direct OD"
                            );
                            await page.Page.CloseAsync();
                            using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(1));
                            await lane.UntilAsync(i => i.Lit == Eye.Left, patience.Token);
                            page.GoOnWith(await sitting.Stage.OpenAgainAsync(page, $"/lane/{lane.Serial}"));
                            var stands = await page.UntilAskedAsync(
                                asked => asked.Key != "",
                                "anything after it was opened again"
                            );
                            Assert.Equal(stood, stands);
                        }

                        return false;
                    },
                };
                await sitting.ExamineAsync(ExamStage.Named("left-rapd"), voice);
                Assert.True(closed);
                var shown = await sitting.RecordAsync();
                var chart = shown.GetProperty("summary").GetProperty("chartLine").GetString();
                Assert.Contains("RAPD OS (left) seen", chart, StringComparison.Ordinal);
            }
        );
}
