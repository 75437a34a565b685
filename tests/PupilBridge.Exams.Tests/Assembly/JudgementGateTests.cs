using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

public class JudgementGateTests
{
    private const string Begin = "meet A; bright; open Q-1001; +1000; mode measure; +500;";
    private const string Graded = Begin + "mode hold direct; directs;";

    [Theory]
    [InlineData("shape R round", JudgementRefusal.BothPupilsNotMeasured)]
    [InlineData("pair R 3200; shape R round", JudgementRefusal.BothPupilsNotMeasured)]
    [InlineData("mode hold direct; direct R 3", JudgementRefusal.NoCompleteStimulus)]
    [InlineData("mode hold direct; lamp R on; +500; direct R 3", JudgementRefusal.NoCompleteStimulus)]
    [InlineData("mode hold direct; stim R 300; direct R 3", JudgementRefusal.NoCompleteStimulus)]
    [InlineData("mode hold direct; stim R 1000; direct L 3", JudgementRefusal.NoCompleteStimulus)]
    [InlineData("mode hold short; swings 1000 4 R; direct R 3", JudgementRefusal.NoCompleteStimulus)]
    [InlineData("mode hold direct; stim R 1000; consensual L 3", JudgementRefusal.NoCompleteStimulus)]
    [InlineData("mode hold short; swings 1000 3 R; swing short alike", JudgementRefusal.AlternationsNotComplete)]
    [InlineData("mode hold short; swings 1000 4 R; swing long alike", JudgementRefusal.AlternationsNotComplete)]
    [InlineData("near R 3", JudgementRefusal.NotLookedNear)]
    [InlineData("slow R", JudgementRefusal.NoLightWentAway)]
    [InlineData(
        "mode hold direct; s: lamp L on; +1000; lamp L off; stim R 1000; direct R 3 saw=s",
        JudgementRefusal.OtherStimulus
    )]
    [InlineData("s: mode hold direct; stim R 1000; direct R 3 saw=s", JudgementRefusal.OtherStimulus)]
    [InlineData("pair R 3200; pair L 3200; aside; shape R round", JudgementRefusal.ExamSetAside)]
    public void Without_an_opportunity_a_judgement_is_refused_and_kept(string script, object reason)
    {
        var exam = Script.Run(Begin + script).Exam;
        Assert.Empty(exam.Judgements);
        Assert.Equal((JudgementRefusal)reason, Assert.Single(exam.RefusedJudgements).Reason);
    }

    [Theory]
    [InlineData("pair R 3200; pair L 3200; shape R round")]
    [InlineData("status L prosthesis; pair R 3200; shape R round")]
    [InlineData("mode hold direct; stim R 1000; direct R 3")]
    [InlineData("mode hold direct; stim R 1000; direct R ?")]
    [InlineData("mode hold direct; stim R 1000; consensual R 3")]
    [InlineData("mode hold direct; s: lamp R on; +1000; lamp R off; stim R 1000; direct R 3 saw=s")]
    [InlineData("mode hold short; swings 1000 4 R; swing short alike")]
    [InlineData("mode hold long; swings 3000 4 L; swing long R")]
    [InlineData("mode hold near; near R 3")]
    [InlineData("say near; near R 3")]
    [InlineData("fix near; near R 3")]
    [InlineData("dim; slow R")]
    [InlineData("mode hold direct; stim R 1000; ready; direct R 3")] // entered after the exam was made ready
    public void With_an_opportunity_it_counts(string script)
    {
        var exam = Script.Run(Begin + script).Exam;
        Assert.Single(exam.Judgements);
        Assert.Empty(exam.RefusedJudgements);
    }

    [Fact]
    public void A_grade_names_the_stimulus_that_was_seen()
    {
        var folded = Script.Run(
            Begin + "mode hold direct; s: lamp R on; +1000; lamp R off; +9; stim R 1000; direct R 3 saw=s"
        );
        Assert.Equal(folded.Exam.Stimuli[0].On.Sequence, Assert.Single(folded.Exam.Judgements).Stimulus);
        var unnamed = Script.Run(Begin + "mode hold direct; stim R 1000; +9; stim R 1000; direct R 3").Exam;
        Assert.Equal(unnamed.Stimuli[1].On.Sequence, Assert.Single(unnamed.Judgements).Stimulus);
    }

    [Fact]
    public void Eye_lit_and_pupil_observed_are_kept_apart()
    {
        var exam = Script.Run(Graded + "consensual R 2; mode hold short; swings 1000 4 R; swing short L only=R").Exam;
        var consensual = Assert.IsType<ConsensualResponse>(exam.Judgements[0].Judgement);
        Assert.Equal((Eye.Right, Eye.Left), (consensual.Lit, consensual.Observed));
        var swing = Assert.IsType<SwingOutcome>(exam.Judgements[1].Judgement);
        Assert.Equal((SwingFinding.LeftWorse, PupilsObserved.Right), (swing.Finding, swing.Observed));
    }

    [Fact]
    public void Could_not_see_differs_from_not_examined_and_from_nothing()
    {
        var exam = Script.Run(Graded + "direct R ?").Exam;
        Assert.False(((DirectResponse)CurrentJudgements.Direct(exam, Eye.Right)!.Judgement).Grade.WasSeen);
        Assert.Null(CurrentJudgements.Direct(exam, Eye.Left));
    }

    [Fact]
    public void A_later_grade_goes_before_the_earlier_and_undo_brings_it_back()
    {
        var later = Script.Run(Graded + "direct R 2; g: direct R 3").Exam;
        Assert.Equal(Grade.Of(3), ((DirectResponse)CurrentJudgements.Direct(later, Eye.Right)!.Judgement).Grade);
        var undone = Script.Run(Graded + "direct R 2; g: direct R 3; undo g").Exam;
        Assert.Equal(Grade.Of(2), ((DirectResponse)CurrentJudgements.Direct(undone, Eye.Right)!.Judgement).Grade);
        Assert.Equal(2, undone.Judgements.Count);
    }

    [Fact]
    public void An_entry_sent_twice_counts_once()
    {
        var folded = Script.Run(Graded + "g: direct R 2; twice g direct R 2");
        Assert.Single(folded.Exam.Judgements);
        Assert.Contains("sent twice", Assert.Single(folded.Changes.OfType<EntryIgnored>()).Reason);
    }

    [Theory]
    [InlineData("direct R 1; direct L 3", true)]
    [InlineData("direct R 3; direct L 0", true)]
    [InlineData("direct R 0.5", true)]
    [InlineData("direct R 1.5; direct L 2", false)]
    [InlineData("direct R ?; direct L ?", false)]
    public void The_near_response_is_due_where_a_direct_response_of_either_eye_is_at_most_1(string grades, bool isDue)
    {
        var exam = Script.Run(Graded + grades).Exam;
        Assert.Equal(isDue, ExamSteps.IsNearDue(exam));
        var near = ExamSteps.Of(exam).Where(s => s.Step == ExamStep.Near).ToArray();
        Assert.Equal(isDue ? 1 : 0, near.Length);
        if (isDue)
            Assert.Equal([Eye.Right, Eye.Left], near[0].Missing.ToArray());
    }

    [Theory]
    [InlineData("direct R 3; direct L 3", false)]
    [InlineData("direct R 3; direct L 2.5", true)]
    [InlineData("direct R 1; direct L 1", true)]
    public void The_consensual_response_is_prompted_where_the_direct_one_is_poor_or_unequal(
        string grades,
        bool prompted
    ) =>
        Assert.Equal(
            prompted,
            Reminders.Of(Script.Run(Graded + grades).Exam).Any(r => r.Kind == ReminderKind.ConsensualWorthwhile)
        );

    [Fact]
    public void Near_in_another_light_than_direct_is_flagged()
    {
        var unlike = Script.Run(Graded + "direct R 1; dim; mode hold near; near R 3").Exam;
        Assert.Contains(Reminders.Of(unlike), r => r.Kind == ReminderKind.NearInOtherLight);
        var like = Script.Run(Graded + "direct R 1; mode hold near; near R 3").Exam;
        Assert.DoesNotContain(Reminders.Of(like), r => r.Kind == ReminderKind.NearInOtherLight);
    }
}
