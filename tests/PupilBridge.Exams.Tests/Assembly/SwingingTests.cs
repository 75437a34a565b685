using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Tests.Scripts;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

public class SwingingTests
{
    private const string Both =
        "meet A; bright; open Q-1001; +1000; mode measure; mode hold short; swings 1000 4 R; mode hold long; swings 3000 4 R;";

    [Theory]
    [InlineData("", SwingState.NotExamined, null)]
    [InlineData("swing short ?", SwingState.CouldNotSee, null)]
    [InlineData("swing short alike; swing long alike", SwingState.NoneSeen, null)]
    [InlineData("swing short alike", SwingState.NoneSeen, null)]
    [InlineData("swing short alike; swing long ?", SwingState.NoneSeen, null)]
    [InlineData("swing short R; swing long R", SwingState.Seen, Eye.Right)]
    [InlineData("swing long L", SwingState.Seen, Eye.Left)]
    [InlineData("swing short R; swing long L", SwingState.Disagree, null)]
    [InlineData("swing short alike; swing long L", SwingState.Disagree, null)]
    [InlineData("status L drops; swing short alike", SwingState.AlikeUnreliable, null)]
    [InlineData("status L drops; swing short alike only=R", SwingState.NoneSeen, null)]
    [InlineData("status L opaquecornea; swing short alike only=R", SwingState.AlikeUnreliable, null)]
    public void The_outcomes_of_both_dwells_add_up(string script, object state, Eye? eye)
    {
        var swinging = Swinging.Of(Script.Run(Both + script).Exam);
        Assert.Equal(((SwingState)state, eye), (swinging.State, swinging.Eye));
    }

    [Theory]
    [InlineData("direct R 0; direct L 0", "", SwingState.AlikeUnresponsive)]
    [InlineData("direct R 0; direct L 3", "", SwingState.AlikeUnresponsive)]
    [InlineData("direct R 0; direct L 3", "only=R", SwingState.AlikeUnresponsive)]
    [InlineData("direct R 0; direct L 3", "only=L", SwingState.NoneSeen)]
    [InlineData("direct R 0.5; direct L 3", "", SwingState.NoneSeen)]
    public void A_pupil_that_does_not_respond_shows_no_difference(string direct, string watched, object state)
    {
        var exam = Script
            .Run(
                $"meet A; open; +9; mode measure; mode hold direct; directs; {direct}; mode hold short; swings 1000 4 R; swing short alike {watched}"
            )
            .Exam;
        Assert.Equal((SwingState)state, Swinging.Of(exam).State);
    }

    [Fact]
    public void No_defect_is_claimed_absent_after_untimely_alternations()
    {
        var exam = Script
            .Run("meet A; open; +9; mode measure; mode hold short; swings 1060 4 R; swing short alike")
            .Exam;
        Assert.Equal(SwingState.AlikeUntimely, Swinging.Of(exam).State);
    }

    [Fact]
    public void A_repeat_that_shows_something_else_is_kept_as_a_disagreement_until_it_is_confirmed()
    {
        const string repeat = "mode hold short; swings 1000 4 R;";
        var once = Script.Run(Both + "swing short alike;" + repeat + "swing short R").Exam;
        Assert.Equal(SwingState.Disagree, Swinging.Of(once).State);
        Assert.Contains(Reminders.Of(once), r => r.Kind == ReminderKind.RepeatSwinging);
        Assert.Equal(2, CurrentJudgements.Swings(once, Block.SwingShort).Length);
        var confirmed = Script
            .Run(Both + "swing short alike;" + repeat + "swing short R;" + repeat + "swing short R")
            .Exam;
        Assert.Equal((SwingState.Seen, Eye.Right), (Swinging.Of(confirmed).State, Swinging.Of(confirmed).Eye!.Value));
    }

    [Fact]
    public void The_short_dwell_asks_which_eye_constricts_less_and_the_long_one_which_lets_go()
    {
        Assert.Equal(AskedFor.WhichConstrictsLess, Asked.Of(Script.Run(Both).Exam).For);
        Assert.Equal(AskedFor.WhichLetsGo, Asked.Of(Script.Run(Both + "swing short alike").Exam).For);
    }
}
