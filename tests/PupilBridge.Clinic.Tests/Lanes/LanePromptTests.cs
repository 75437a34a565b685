using PupilBridge.Clinic.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class LanePromptTests : IDisposable
{
    private readonly LaneScene lane = new();

    [Fact]
    public async Task A_normal_exam_asks_for_one_thing_after_the_other_and_each_key_is_another()
    {
        var exam = await lane.Clinic.OpenAsync();
        var seen = new List<LanePrompt>();
        async Task Seen(string accepts, string? eye, string words)
        {
            var prompt = await lane.PromptAsync();
            Assert.Equal((accepts, eye, words), (prompt.Accepts, prompt.Eye, prompt.Words));
            seen.Add(prompt);
        }

        await Seen("light", null, "Is the room bright or dim?");
        lane.Clinic.House.Add(lane.Instrument.Dial(InstrumentMode.Measure));
        await lane.EnterAsync(lane.Clinic.Light(exam, "bright"));
        await Seen("none", "OD", "Measure OD (right)");
        lane.Clinic.House.Add(lane.Instrument.Mark(Eye.Right, 4_000));
        await Seen("none", "OS", "Measure OS (left)");
        lane.Clinic.House.Add(lane.Instrument.Mark(Eye.Left, 4_100));
        await Seen("shape", null, "Are both pupils round?");
        await lane.JudgeAsync(exam, "shape OD round");
        await Seen("shape", "OS", "Is the pupil of OS (left) round?");
        await lane.JudgeAsync(exam, "shape OS round");
        await Seen("light", null, "Make the room dim");
        await lane.EnterAsync(lane.Clinic.Light(exam, "dim"));
        lane.Clinic.MeasureBoth(5_000, 5_100);
        await Seen("none", "OD", "Run the direct block");
        lane.Clinic.House.Add(lane.Instrument.DirectBlock());
        await Seen("grade", "OD", "Grade OD (right), direct");
        await lane.JudgeAsync(exam, "direct OD 3");
        await Seen("grade", "OS", "Grade OS (left), direct");
        await lane.JudgeAsync(exam, "direct OS 3");
        await Seen("none", null, "Run the short swing");
        lane.Clinic.House.Add(lane.Instrument.SwingBlock(Block.SwingShort, 1000));
        await Seen("swing", null, "Which eye constricts less?");
        await lane.JudgeAsync(exam, "swing short alike");
        await Seen("none", null, "Run the long swing");
        lane.Clinic.House.Add(lane.Instrument.SwingBlock(Block.SwingLong, 3000));
        await Seen("swing", null, "Which eye lets go?");
        await lane.JudgeAsync(exam, "swing long alike");
        await Seen("ready", null, "Make ready for review");

        Assert.Equal(seen.Count, seen.Select(prompt => prompt.Key).Distinct().Count());
        Assert.All(seen, prompt => Assert.InRange(prompt.Words.Length, 1, 40));
        Assert.All(seen, prompt => Assert.NotEmpty(prompt.Detail));
        Assert.All(seen, prompt => Assert.StartsWith($"{exam}|", prompt.Key, StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_a_prompt_judges_lacks_but_its_last_word_and_names_a_stimulus_that_counts()
    {
        var exam = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(exam, "shape OD round", "shape OS round");

        foreach (var last in new[] { "1", "1", "alike", "alike" })
        {
            var prompt = await lane.PromptAsync();
            await lane.EnterAsync(
                lane.Clinic.Judging(exam, $"{prompt.Judges} {last}") with
                {
                    StepSeen = prompt.Step,
                    StimulusSeen = Assert.NotNull(prompt.Stimulus),
                }
            );
        }

        Assert.Equal(
            ["shape OD round", "shape OS round", "direct OD 1", "direct OS 1", "swing short alike", "swing long alike"],
            (await lane.ExamAsync()).Judgements.Select(judgement => judgement.Judgement)
        );
        var near = await lane.PromptAsync();
        Assert.Equal(("none", "Have the patient look near"), (near.Accepts, near.Words));
        lane.Clinic.House.Add(lane.Instrument.Dial(InstrumentMode.Hold, Block.Near));
        near = await lane.PromptAsync();
        Assert.Equal(("grade", "near OD", "Grade OD (right), near"), (near.Accepts, near.Judges, near.Words));
    }

    [Fact]
    public async Task A_pending_question_stays_the_same_whatever_the_dial_does_and_whatever_is_lit()
    {
        var exam = await lane.Clinic.OpenAsync();
        lane.Clinic.House.Add(lane.Instrument.Dial(InstrumentMode.Sequence, Block.Direct));
        lane.Clinic.House.Add(lane.Instrument.Light(Eye.Right, 1000, 3000));
        var asked = await lane.PromptAsync();
        Assert.Equal(("grade", "OD"), (asked.Accepts, asked.Eye));

        lane.Clinic.House.Add(lane.Instrument.Light(Eye.Right, 1000, 3000));
        Assert.Equal(asked.Key, (await lane.PromptAsync()).Key);
        lane.Clinic.House.Add(lane.Instrument.Light(Eye.Left, 1000, 3000));
        Assert.Equal(asked.Key, (await lane.PromptAsync()).Key);
        lane.Clinic.House.Add(lane.Instrument.Dial(InstrumentMode.Hold, Block.SwingShort));
        Assert.Equal(asked.Key, (await lane.PromptAsync()).Key);
        lane.Clinic.House.Add(lane.Instrument.SwingBlock(Block.SwingShort, 1000));
        Assert.Equal(asked, await lane.PromptAsync());
        lane.Clinic.House.Add(lane.Instrument.DirectBlock());
        Assert.Equal(asked, await lane.PromptAsync());

        await lane.JudgeAsync(exam, "direct OD 3");
        var next = await lane.PromptAsync();
        Assert.Equal(("grade", "OS"), (next.Accepts, next.Eye));
        Assert.NotEqual(asked.Key, next.Key);
    }

    [Fact]
    public async Task A_question_taken_back_is_asked_again_under_the_same_key()
    {
        var exam = await lane.Clinic.OpenAsync();
        lane.Clinic.House.Add(lane.Instrument.DirectBlock());
        var asked = await lane.PromptAsync();
        await lane.JudgeAsync(exam, "direct OD 3");

        await lane.EnterAsync(lane.Clinic.Withdrawing(exam, (await lane.ExamAsync()).Judgements[0].EntryId));

        Assert.Equal(asked, await lane.PromptAsync());
    }

    [Fact]
    public async Task The_direct_block_tells_how_far_it_has_come_without_becoming_another_prompt()
    {
        await lane.Clinic.OpenAsync();
        await lane.EnterAsync(lane.Clinic.Light((await lane.ExamAsync()).Exam, "bright"));
        var exam = (await lane.ExamAsync()).Exam;
        lane.Clinic.MeasureBoth();
        await lane.JudgeAsync(exam, "shape OD round", "shape OS round");
        await lane.EnterAsync(lane.Clinic.Light(exam, "dim"));
        lane.Clinic.MeasureBoth(5_000, 5_000);
        lane.Clinic.House.Add(lane.Instrument.DirectBlock());
        await lane.JudgeAsync(exam, "direct OD 3", "direct OS 3");
        var before = await lane.PromptAsync();
        Assert.Equal("4 alternations of 1 s; so far 0.", before.Detail);

        lane.Clinic.House.Add(lane.Instrument.SwingBlock(Block.SwingShort, 1000).Take(5));

        var after = await lane.PromptAsync();
        Assert.Equal("4 alternations of 1 s; so far 1.", after.Detail);
        Assert.Equal(before.Key, after.Key);
    }

    [Fact]
    public async Task A_swinging_block_that_was_repeated_may_be_judged_again()
    {
        var exam = await lane.WithEverythingShownAsync();
        await lane.JudgeAsync(exam, "shape OD round", "shape OS round", "direct OD 3", "direct OS 3");
        await lane.JudgeAsync(exam, "swing short alike", "swing long worse OD");
        Assert.Equal("ready", (await lane.PromptAsync()).Accepts);

        lane.Clinic.House.Add(lane.Instrument.SwingBlock(Block.SwingShort, 1000));
        var repeat = await lane.PromptAsync();

        Assert.Equal(("swing", "swing short", true), (repeat.Accepts, repeat.Judges, repeat.IsOptional));
        Assert.StartsWith("A repeat", repeat.Detail, StringComparison.Ordinal);
        Assert.Empty((await lane.ExamAsync()).Missing);
        await lane.EnterAsync(
            lane.Clinic.Judging(exam, "swing short worse OD") with
            {
                StimulusSeen = repeat.Stimulus,
            }
        );
        Assert.Equal("ready", (await lane.PromptAsync()).Accepts);
        Assert.Equal(2, lane.Clinic.Exam(exam).Judgements[^1].Run);
    }

    [Fact]
    public async Task With_a_light_sensor_nobody_is_asked_to_type_the_light()
    {
        using var sensing = new LaneScene(InstrumentAbilities.MarkKeys | InstrumentAbilities.LightSensor);
        await sensing.Clinic.OpenAsync();
        sensing.Clinic.House.Add(sensing.Instrument.Lux(400));
        sensing.Clinic.MeasureBoth();
        var exam = (await sensing.ExamAsync()).Exam;
        await sensing.JudgeAsync(exam, "shape OD round", "shape OS round");

        var prompt = await sensing.PromptAsync();

        Assert.Equal(("none", "Make the room dim"), (prompt.Accepts, prompt.Words));
    }

    public void Dispose() => lane.Dispose();
}
