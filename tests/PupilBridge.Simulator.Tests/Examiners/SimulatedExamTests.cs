using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Eyes;
using PupilBridge.Simulator.Scenarios;
using PupilBridge.Simulator.Tests.Lines;
using static PupilBridge.Simulator.Examiners.SpokenJudgement;

namespace PupilBridge.Simulator.Tests.Examiners;

public class SimulatedExamTests
{
    public static TheoryData<string, string> Casts
    {
        get
        {
            var data = new TheoryData<string, string>();
            foreach (var model in InstrumentModels.All)
            {
                foreach (var scenario in NamedScenarios.All)
                {
                    data.Add(model.Name, scenario.Name);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Casts))]
    public void Every_scenario_runs_a_whole_exam_on_both_models(string model, string scenario)
    {
        var whole = Run(model, scenario);
        Assert.InRange(whole.Exam.Exam.Elapsed, TimeSpan.FromSeconds(90), TimeSpan.FromMinutes(5));
        Assert.Equal(2, whole.Said<ShapeSeen>().Count());
        Assert.Equal(2, whole.Said<LightGraded>().Count(g => g.Lit == g.Observed));
        Assert.Equal([Block.SwingShort, Block.SwingLong], whole.Said<SwingSeen>().Select(s => s.Block));
        Assert.IsType<Ready>(whole.Spoken[^1]);
        Assert.Equal(4, whole.Exam.Exam.Settings.Count);
        Assert.Equal(InstrumentMode.Idle, whole.Exam.Instrument.Mode);
        Assert.Empty(whole.Exam.Instrument.Truth.Losses);
        Assert.Equal(0, whole.Host.BadLines);
        OracleCheck.Holds(whole.Exam.Instrument.Truth, whole.Host);
        Assert.Equal(whole.Exam.Instrument.Truth.Events.Count, whole.Host.Recorded.Count);
    }

    [Theory]
    [InlineData("normal", null, null)]
    [InlineData("right-rapd-mild", Eye.Right, Eye.Right)]
    [InlineData("right-rapd-marked", Eye.Right, Eye.Right)]
    [InlineData("left-rapd", Eye.Left, Eye.Left)]
    [InlineData("right-fixed", null, null)]
    [InlineData("anisocoria", null, null)]
    [InlineData("older", null, null)]
    [InlineData("child", null, null)]
    public void What_is_said_of_the_swinging_light_follows_the_truth(string scenario, Eye? isShort, Eye? isLong)
    {
        foreach (var model in InstrumentModels.All)
        {
            var whole = Run(model.Name, scenario);
            Assert.Equal([isShort, isLong], whole.Said<SwingSeen>().Select(s => s.Affected));
        }
    }

    [Fact]
    public void A_normal_response_is_graded_4_and_nothing_more_is_asked()
    {
        var whole = Run("Quay-A", "normal");
        Assert.All(whole.Said<LightGraded>(), g => Assert.Equal((4, g.Lit), (g.Grade, g.Observed)));
        Assert.Equal(2, whole.Said<LightGraded>().Count());
        Assert.Empty(whole.Said<NearGraded>());
    }

    [Fact]
    public void A_fixed_pupil_is_graded_0_and_its_fellow_answers_to_light_in_either_eye()
    {
        var whole = Run("Quay-B", "right-fixed");
        var grades = whole.Said<LightGraded>().ToDictionary(g => (g.Lit, g.Observed), g => g.Grade);
        Assert.Equal(0, grades[(Eye.Right, Eye.Right)]);
        Assert.Equal(4, grades[(Eye.Left, Eye.Left)]);
        Assert.Equal(4, grades[(Eye.Right, Eye.Left)]);
        Assert.Equal(0, grades[(Eye.Left, Eye.Right)]);
        Assert.Equal(0, whole.Said<NearGraded>().Single(n => n.Eye == Eye.Right).Grade);
        Assert.True(whole.Said<NearGraded>().Single(n => n.Eye == Eye.Left).Grade >= 2);
    }

    [Theory]
    [InlineData("Quay-A")]
    [InlineData("Quay-B")]
    public void Where_light_moves_both_pupils_poorly_the_near_response_is_tested_in_the_near_block(string model)
    {
        var whole = Run(model, "light-near");
        Assert.All(whole.Said<LightGraded>(), g => Assert.InRange(g.Grade, 0, 1));
        Assert.All(whole.Said<NearGraded>(), n => Assert.True(n.Grade >= 2));
        Assert.Equal(2, whole.Said<NearGraded>().Count());
        var texts = whole.Host.Recorded.Select(r => r.Text).ToList();
        var block = texts.FindIndex(t => t.Contains(",NEAR,", StringComparison.Ordinal));
        var fixation = texts.FindIndex(t => t == "FIX,NEAR");
        Assert.True(block >= 0 && fixation > block);
    }

    [Fact]
    public void An_irregular_pupil_is_said_to_be_so()
    {
        var shapes = Run("Quay-A", "irregular").Said<ShapeSeen>().ToDictionary(s => s.Eye, s => s.Shape);
        Assert.Equal((PupilShape.Round, PupilShape.Irregular), (shapes[Eye.Right], shapes[Eye.Left]));
    }

    [Theory]
    [InlineData("Quay-A")]
    [InlineData("Quay-B")]
    public void The_scales_are_set_to_the_pupils_with_the_hands_scatter(string model)
    {
        var errors = Enumerable
            .Range(0, 12)
            .SelectMany(seed => Run(model, NamedScenarios.All[0] with { Seed = seed }).Exam.Exam.Settings)
            .Select(s => s.SetMillimetres - s.PupilMillimetres)
            .ToArray();

        // Two edges of 0.08 mm each, and the unrest between them.
        var spread = Math.Sqrt(errors.Average(e => e * e));
        Assert.InRange(spread, 0.06, 0.20);
        Assert.InRange(errors.Average(), -0.08, 0.08);
    }

    [Theory]
    [InlineData("Quay-A")]
    [InlineData("Quay-B")]
    public void The_positions_on_the_wire_give_the_size_that_was_set(string model)
    {
        var whole = Run(model, "normal");
        var setting = whole.Exam.Exam.Settings[0];
        var texts = whole.Host.Recorded.Select(r => r.Text).ToArray();
        var size =
            model == "Quay-A"
                ? FromMarks(texts)
                : 16_000 - Position(texts.First(t => t.StartsWith("REST,R", StringComparison.Ordinal)));
        Assert.Equal(setting.SetMillimetres, size / 1000.0, 0.051);

        static int FromMarks(string[] texts) =>
            Position(texts.First(t => t.StartsWith("EDGE,R,T", StringComparison.Ordinal)))
            - Position(texts.First(t => t.StartsWith("EDGE,R,N", StringComparison.Ordinal)));

        static int Position(string text) => int.Parse(text.Split(',')[^1], null);
    }

    [Fact]
    public void The_same_seed_gives_the_same_exam_and_another_seed_another()
    {
        var (one, two) = (Run("Quay-A", NamedScenarios.FromSeed(7)), Run("Quay-A", NamedScenarios.FromSeed(7)));
        Assert.Equal(one.Host.Recorded, two.Host.Recorded);
        Assert.Equal(one.Spoken, two.Spoken);
        Assert.NotEqual(one.Host.Recorded, Run("Quay-A", NamedScenarios.FromSeed(8)).Host.Recorded);
    }

    [Fact]
    public void Time_stands_still_while_the_examiner_waits_to_speak()
    {
        var instrument = new SimulatedInstrument(InstrumentModels.QuayA, new SerialNumber("QA-1"), 1);
        instrument.SwitchOn();
        var exam = new SimulatedExam(NamedScenarios.All[0], instrument);
        while (exam.AboutToSay is null)
        {
            exam.Step(TimeSpan.FromSeconds(1));
        }

        var (elapsed, events) = (exam.Elapsed, instrument.Truth.Events.Count);
        exam.Step(TimeSpan.FromMinutes(1));
        Assert.Equal((elapsed, events), (exam.Elapsed, instrument.Truth.Events.Count));
        exam.Said();
        Assert.Throws<InvalidOperationException>(() =>
        {
            exam.Said();
            exam.Said();
            exam.Said();
        });
    }

    [Fact]
    public void Eyes_and_instrument_may_go_on_meanwhile_and_the_script_waits()
    {
        var instrument = new SimulatedInstrument(InstrumentModels.QuayA, new SerialNumber("QA-1"), 1);
        instrument.SwitchOn();
        var exam = new SimulatedExam(NamedScenarios.All[0], instrument) { GoesOnWhileSpeaking = true };
        while (exam.AboutToSay is null)
        {
            exam.Step(TimeSpan.FromSeconds(1));
        }

        var (elapsed, waiting) = (exam.Elapsed, exam.AboutToSay);
        exam.Step(TimeSpan.FromMinutes(1));
        Assert.Equal(elapsed + TimeSpan.FromMinutes(1), exam.Elapsed);
        Assert.Same(waiting, exam.AboutToSay);
        exam.Said();
        Assert.NotSame(waiting, exam.AboutToSay);
    }

    [Fact]
    public void A_block_can_be_repeated_in_hold()
    {
        var normal = NamedScenarios.All[0];
        var whole = Run("Quay-B", normal with { Examiner = normal.Examiner with { RepeatsSwingShort = true } });
        var texts = whole.Host.Recorded.Select(r => r.Text).ToArray();
        Assert.Contains("MODE,HOLD,SWINGSHORT,DIAL", texts);
        Assert.Contains("MODE,SEQUENCE,SWINGLONG,DIAL", texts);
        Assert.Equal([null, null], whole.Said<SwingSeen>().Select(s => s.Affected));
    }

    [Fact]
    public void A_hundred_seeds_give_whole_exams_of_many_kinds()
    {
        var casts = Enumerable.Range(0, 100).Select(i => NamedScenarios.FromSeed(i)).ToArray();
        Assert.True(casts.Select(c => c.Patient.AgeYears).Distinct().Count() > 30);
        Assert.True(casts.Select(c => c.Patient.Eyes).Distinct().Count() > 20);
        foreach (var cast in casts.Take(10))
        {
            var whole = Run(cast.Seed % 2 == 0 ? "Quay-A" : "Quay-B", cast);
            Assert.IsType<Ready>(whole.Spoken[^1]);
        }
    }

    private static WholeExam Run(string model, string scenario) => Run(model, NamedScenarios.Find(scenario)!);

    private static WholeExam Run(string model, Scenario scenario) =>
        WholeExam.Run(InstrumentModels.Find(model)!, scenario);
}
