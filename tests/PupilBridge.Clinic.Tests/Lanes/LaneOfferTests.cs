using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Lanes;

/// <summary>What is offered beside the one question, and never due.</summary>
public sealed class LaneOfferTests : IDisposable
{
    private readonly LaneScene lane = new();

    [Fact]
    public async Task The_consensual_response_is_offered_beside_what_is_due_and_never_missing()
    {
        var exam = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(exam, "shape OD round", "shape OS round", "direct OD 0");
        Assert.Empty((await lane.ExamAsync()).Optional);
        await lane.JudgeAsync(exam, "direct OS 3");

        var shown = await lane.ExamAsync();
        Assert.Equal(("swing", false), (shown.Prompt.Accepts, shown.Prompt.IsOptional));
        Assert.Equal(
            [
                ("grade", "consensual lit OD", "OD", "consensual", "Light in OD (right): grade OS (left)"),
                ("grade", "consensual lit OS", "OS", "consensual", "Light in OS (left): grade OD (right)"),
            ],
            shown.Optional.Select(p => (p.Accepts, p.Judges, p.Eye!, p.Step!, p.Words))
        );
        Assert.All(shown.Optional, p => Assert.True(p.IsOptional));
        Assert.All(shown.Optional, p => Assert.InRange(p.Words.Length, 1, 40));
        Assert.Contains("Light in OD (right), watch only the pupil of OS (left)", shown.Optional[0].Detail);
        Assert.Equal(2, shown.Optional.Select(p => p.Key).Distinct().Count());
        Assert.DoesNotContain("consensual", shown.MissingSteps);
        Assert.DoesNotContain(shown.Missing, line => line.Contains("onsensual", StringComparison.Ordinal));

        var second = shown.Optional[1];
        await lane.EnterAsync(
            lane.Clinic.Judging(exam, $"{second.Judges} 2") with
            {
                StepSeen = second.Step,
                StimulusSeen = Assert.NotNull(second.Stimulus),
            }
        );

        var after = await lane.ExamAsync();
        Assert.Contains(after.Judgements, j => j.Judgement == "consensual lit OS 2");
        Assert.Equal(shown.Optional[0], Assert.Single(after.Optional));
        Assert.Equal(shown.Prompt, after.Prompt);
    }

    [Fact]
    public async Task An_offer_keeps_its_meaning_whatever_the_dial_does()
    {
        var exam = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(exam, "shape OD round", "shape OS round", "direct OD 3", "direct OS 1");
        var offered = (await lane.ExamAsync()).Optional;
        Assert.Equal(2, offered.Count);
        lane.Clinic.House.Add(lane.Instrument.Dial(InstrumentMode.Hold, Block.Direct));
        lane.Clinic.House.Add(lane.Instrument.Light(Eye.Left, 1000, 3000));
        Assert.Equal(offered, (await lane.ExamAsync()).Optional);
        lane.Clinic.House.Add(lane.Instrument.Dial(InstrumentMode.Hold, Block.SwingShort));
        Assert.Equal(offered, (await lane.ExamAsync()).Optional);
    }

    [Fact]
    public async Task Direct_responses_that_are_alike_and_good_offer_nothing()
    {
        var exam = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(exam, "shape OD round", "shape OS round", "direct OD 3", "direct OS 3");
        Assert.Empty((await lane.ExamAsync()).Optional);
    }

    public void Dispose() => lane.Dispose();
}
