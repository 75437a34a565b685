using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;
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

    /// <summary>
    /// One working pupil is enough, and only that one may be watched: Community Eye Health J 2016 (PMC5365042), figure 4. A pupil
    /// without a direct response may be blind or fixed; light in the fellow eye tells which (common teaching, from memory).
    /// </summary>
    [Theory]
    [InlineData("direct R 0; direct L 3", "swing short R", SwingState.WorseUnresponsive, null)]
    [InlineData("direct R 0; direct L 3", "swing short L", SwingState.WorseUnresponsive, null)]
    [InlineData("direct R 0; direct L 3", "swing short R only=R", SwingState.WorseUnresponsive, null)]
    [InlineData("direct R 0; direct L 0", "swing short R", SwingState.WorseUnresponsive, null)]
    [InlineData("direct R 0; direct L 3; consensual L 0", "swing short R", SwingState.WorseUnresponsive, null)]
    [InlineData("direct R 0; direct L 3; consensual L ?", "swing short R", SwingState.WorseUnresponsive, null)]
    [InlineData("direct R 0; direct L 3; consensual R 3", "swing short R", SwingState.WorseUnresponsive, null)]
    [InlineData("direct R 0; direct L 3; consensual L 3", "swing short R", SwingState.Seen, Eye.Right)]
    [InlineData("direct R 0; direct L 3", "swing short R only=L", SwingState.Seen, Eye.Right)]
    [InlineData("direct R 0; direct L 3", "swing short L only=L", SwingState.Seen, Eye.Left)]
    [InlineData("direct R 0.5; direct L 3", "swing short R", SwingState.Seen, Eye.Right)]
    [InlineData("direct R ?; direct L 3", "swing short R", SwingState.Seen, Eye.Right)]
    [InlineData("direct R 0; direct L 3; consensual L 3", "swing short alike", SwingState.AlikeContradicted, null)]
    [InlineData("direct R 3; direct L 3", "status R drops; swing short R", SwingState.WorseUnreliable, null)]
    [InlineData("direct R 3; direct L 3", "status R drops; swing short R only=L", SwingState.Seen, Eye.Right)]
    [InlineData("direct R 3; direct L 3", "fix near; swing short R", SwingState.WorseNearFixation, null)]
    [InlineData("direct R 3; direct L 3", "fix near; swing short alike", SwingState.AlikeNearFixation, null)]
    public void A_defect_is_claimed_only_where_the_watched_pupils_move(
        string responses,
        string swing,
        object state,
        Eye? eye
    )
    {
        var exam = Graded(responses, swing);
        var swinging = Swinging.Of(exam);
        Assert.Equal(((SwingState)state, eye), (swinging.State, swinging.Eye));
        // One decision for all who tell of it.
        var rapd = Findings.Of(new() { Exam = exam }).Single(f => f.Criterion == "rapd");
        Assert.Equal(swinging.State == SwingState.Seen, rapd.Verdict == CriterionVerdict.Met);
        Assert.Equal(swinging.Eye, rapd.Eye);
        Assert.Equal(
            swinging.State == SwingState.Seen,
            ChartText.OneLine(exam).Contains("RAPD OD", StringComparison.Ordinal)
                || ChartText.OneLine(exam).Contains("RAPD OS", StringComparison.Ordinal)
        );
        var record = SignedRecords.Of(exam, "3.0").Swinging;
        Assert.Equal(swinging.State == SwingState.Seen, record.State == "seen");
        Assert.Equal(swinging.Eye is null, record.Eye is null);
        var before = BeforeDrops.Of(exam, []).Where(r => r.Kind == BeforeDropsKind.SwingAsymmetry).ToArray();
        Assert.Equal(swinging.WorseEye is not null, before.Length == 1);
        Assert.All(before, r => Assert.Equal(swinging.State == SwingState.Seen, r.IsSure));
    }

    [Fact]
    public void A_repeat_that_watches_the_working_pupil_alone_is_no_disagreement_with_the_run_that_watched_both()
    {
        const string repeat = "mode hold long; swings 3000 4 R; mode hold short; swings 1000 4 R;";
        var swinging = Swinging.Of(
            Graded("direct R 0; direct L 3", "swing short R;" + repeat + "swing short L only=L")
        );
        Assert.Equal((SwingState.Seen, Eye.Left), (swinging.State, swinging.Eye!.Value));
        var other = Swinging.Of(Graded("direct R 2; direct L 3", "swing short R;" + repeat + "swing short L only=L"));
        Assert.Equal(SwingState.Disagree, other.State);
    }

    private static Exam Graded(string responses, string swing) =>
        Script
            .Run(
                $"meet A; open; +9; mode measure; mode hold direct; directs; {responses}; mode hold short; swings 1000 4 R; {swing}"
            )
            .Exam;

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
