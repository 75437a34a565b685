using PupilBridge.Browser.Lanes;
using PupilBridge.Browser.Pixels;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using Xunit.Abstractions;

namespace PupilBridge.Browser.Tests.Exams;

/// <summary>One pupil hardly moves: the lane offers the consensual response, and takes it under the eye that was lit.</summary>
public sealed class ConsensualTests(ChromiumFixture fixture, ITestOutputHelper output) : IClassFixture<ChromiumFixture>
{
    [Fact]
    public Task What_was_watched_by_light_in_the_other_eye_stands_in_the_record_apart_from_the_direct_response() =>
        ExamStage.PlayAsync(
            output,
            fixture,
            InstrumentModels.QuayA,
            "Q-1005",
            async sitting =>
            {
                Dictionary<Instrument.Eye, string> asked = [];
                await sitting.ExamineAsync(
                    ExamStage.Named("right-fixed"),
                    new KeyedVoice(sitting.Page)
                    {
                        Instead = async spoken =>
                        {
                            if (spoken is SpokenJudgement.LightGraded light && light.Lit != light.Observed)
                            {
                                asked[light.Lit] = await sitting.Page.Page.InnerTextAsync("#ask");
                                await Screenshots.TakeAsync(sitting.Page.Page, $"lane_consensual-lit-{light.Lit}");
                            }

                            return false;
                        },
                    }
                );
                Assert.Equal(2, asked.Count);
                Assert.Contains("Light in OD (right)", asked[Instrument.Eye.Right], StringComparison.Ordinal);
                Assert.Contains("Light in OS (left)", asked[Instrument.Eye.Left], StringComparison.Ordinal);
                var shown = await sitting.RecordAsync();
                var spoken = sitting
                    .Exam.Spoken.OfType<SpokenJudgement.LightGraded>()
                    .Where(light => light.Lit != light.Observed)
                    .Select(light =>
                        $"consensual lit {(light.Lit == Instrument.Eye.Right ? "OD" : "OS")} {light.Grade}"
                    );
                var recorded = shown
                    .GetProperty("judgements")
                    .EnumerateArray()
                    .Select(j => j.GetProperty("judgement").GetString());
                Assert.All(spoken, words => Assert.Contains(words, recorded));
            }
        );
}
