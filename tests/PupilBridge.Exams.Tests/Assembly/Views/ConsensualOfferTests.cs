using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly.Views;

/// <summary>Where direct responses are poor or unequal the consensual one is offered, and it is never asked for, due or missing.</summary>
public class ConsensualOfferTests
{
    private const string Lit = "meet A; open; +9; mode measure; mode hold direct; directs;";

    [Theory]
    [InlineData("direct R 0; direct L 3", "RL")]
    [InlineData("direct R 1; direct L 1", "RL")]
    [InlineData("direct R 3; direct L 2.5", "RL")]
    [InlineData("direct R 0; direct L ?", "RL")]
    [InlineData("direct R 3; direct L 3", "")]
    [InlineData("direct R 3; direct L ?", "")]
    [InlineData("direct R 0", "")] // the left one is still to be graded
    [InlineData("direct R 0; x: direct L 3; undo x", "")]
    [InlineData("direct R 0; direct L 3; consensual R 2", "L")]
    [InlineData("direct R 0; direct L 3; consensual L ?", "R")]
    [InlineData("direct R 0; direct L 3; consensual R 2; consensual L 0", "")]
    [InlineData("direct R 0; direct L 3; x: consensual R 2; undo x", "RL")]
    [InlineData("direct R 0; direct L 3; status L patch", "")]
    [InlineData("direct R 0; direct L 3; ready", "")]
    [InlineData("direct R 0; direct L 3; mode hold short; swings 1000 4 R", "RL")]
    public void It_is_offered_for_the_eye_that_was_lit_after_both_direct_responses(string script, string lit)
    {
        var exam = Script.Run(Lit + script).Exam;
        Assert.Equal(lit, string.Concat(ConsensualOffers.Of(exam).Select(a => a.Eye == Eye.Right ? 'R' : 'L')));
        Assert.All(
            ConsensualOffers.Of(exam),
            a => Assert.Equal((AskedFor.GradeConsensual, ExamStep.Consensual), (a.For, a.Step!.Value))
        );
        Assert.DoesNotContain(ExamSteps.Of(exam), s => s.Step == ExamStep.Consensual);
        Assert.NotEqual(AskedFor.GradeConsensual, Asked.Of(exam).For);
    }

    [Fact]
    public void What_it_was_offered_for_counts_once_it_is_graded()
    {
        var exam = Script.Run(Lit + "direct R 0; direct L 3; consensual L 3; consensual R 0").Exam;
        Assert.Empty(exam.RefusedJudgements);
        Assert.NotNull(CurrentJudgements.Consensual(exam, Eye.Left));
    }

    [Fact]
    public void Without_it_nothing_is_missing_before_drops_or_at_the_end()
    {
        var exam = Script.Run(Lit + "direct R 0; direct L 3; ready").Exam;
        Assert.DoesNotContain(BeforeDrops.Of(exam, []), r => r.Step == ExamStep.Consensual);
        Assert.DoesNotContain(
            Reminders.Of(exam),
            r => r is { Kind: ReminderKind.StepLeftOut, Step: ExamStep.Consensual }
        );
    }
}
