using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Judgements;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

/// <summary>
/// What becomes of answers that contradict each other: both are kept, the chart says so, and nothing is claimed that one of them does not
/// bear out.
/// </summary>
public class ContradictionTests
{
    private const string Measured =
        "meet A; bright; open Q-1001; +1000; mode measure; pair R 3200; pair L 3200; dim; +40000; pair R 5200; pair L 5200;";

    private const string Lit = Measured + "mode hold direct; +500; directs;";

    private const string Swung =
        Lit + "direct R 3; direct L 3; mode hold short; swings 1000 4 R; mode hold long; swings 3000 4 R;";

    [Fact]
    public void Two_people_who_grade_otherwise_leave_the_letters_unclaimed()
    {
        var exam = Script.Run(Lit + "direct L 3; direct R 0 by=KL; direct R 3 by=MK").Exam;

        Assert.Equal(Grade.Of(3), ((DirectResponse)CurrentJudgements.Direct(exam, Eye.Right)!.Judgement).Grade);
        Assert.Equal(LetterClaim.Contradicted, Perrla.Of(exam).ReactiveToLight);
        Assert.Equal((CriterionVerdict.CannotTell, FindingReason.Contradiction), Of(exam, "direct-poor", Eye.Right));
        Assert.Equal((CriterionVerdict.NotMet, FindingReason.None), Of(exam, "direct-poor", Eye.Left));
        Told(
            exam,
            "CONTRADICTION, direct response of OD (right): 0 by KL, then 3+ by MK; the later one stands, and nothing is claimed that the "
                + "other does not bear out"
        );
        Assert.Contains("RL: judged otherwise by another examiner", ChartText.OneLine(exam), StringComparison.Ordinal);
        // Who saw no response is believed before drops, whatever came later.
        Assert.Contains(
            BeforeDrops.Of(exam, []),
            reason => reason is { Kind: BeforeDropsKind.PoorDirect, Eye: Eye.Right, Grade.HalfSteps: 0 }
        );
    }

    [Theory]
    [InlineData("direct R 3 by=KL; direct R 0 by=MK", "R")]
    [InlineData("direct R 1 by=KL; direct R 1.5 by=MK", "R")]
    public void One_grade_poor_and_one_not_is_neither_whichever_came_last(string grades, string eye)
    {
        Assert.Equal("R", eye);
        var exam = Script.Run(Lit + "direct L 3;" + grades).Exam;
        Assert.Equal((CriterionVerdict.CannotTell, FindingReason.Contradiction), Of(exam, "direct-poor", Eye.Right));
        Assert.Equal(LetterClaim.NotMet, Perrla.Of(exam).ReactiveToLight);
    }

    [Fact]
    public void Grades_that_both_bear_a_claim_out_leave_it_standing_and_are_told()
    {
        var exam = Script.Run(Lit + "direct L 3; direct R 2.5 by=KL; direct R 3 by=MK").Exam;
        Assert.Equal(LetterClaim.Claimed, Perrla.Of(exam).ReactiveToLight);
        Assert.Equal((CriterionVerdict.NotMet, FindingReason.None), Of(exam, "direct-poor", Eye.Right));
        Assert.Contains("2.5+ by KL, then 3+ by MK", ChartText.OneLine(exam), StringComparison.Ordinal);
    }

    [Fact]
    public void Whoever_takes_an_answer_back_ends_the_contradiction()
    {
        var exam = Script.Run(Lit + "direct L 3; k: direct R 0 by=KL; direct R 3 by=MK; undo k").Exam;
        Assert.Empty(Contradictions.Of(exam));
        Assert.Equal(LetterClaim.Claimed, Perrla.Of(exam).ReactiveToLight);
        Assert.DoesNotContain("CONTRADICTION", ChartText.OneLine(exam), StringComparison.Ordinal);
    }

    [Fact]
    public void One_who_answers_anew_corrects_themselves_and_the_chart_says_after_what()
    {
        var exam = Script.Run(Lit + "direct L 3; direct R 0 by=KL; direct R 3 by=KL").Exam;
        Assert.Equal(LetterClaim.Claimed, Perrla.Of(exam).ReactiveToLight);
        Assert.Equal((CriterionVerdict.NotMet, FindingReason.None), Of(exam, "direct-poor", Eye.Right));
        Told(exam, "direct response of OD (right): 3+ counts, entered by KL after 0");
    }

    [Fact]
    public void One_who_comes_round_to_the_others_answer_contradicts_nobody()
    {
        var exam = Script.Run(Lit + "direct L 3; direct R 0 by=KL; direct R 3 by=KL; direct R 3 by=MK").Exam;
        Assert.Empty(Contradictions.Of(exam));
    }

    [Fact]
    public void What_could_not_be_seen_is_no_answer_against_another()
    {
        var exam = Script.Run(Lit + "direct L 3; direct R ? by=KL; direct R 3 by=MK").Exam;
        Assert.Empty(Contradictions.Of(exam));
        Assert.Equal(LetterClaim.Claimed, Perrla.Of(exam).ReactiveToLight);
    }

    [Theory]
    [InlineData("shape R round by=KL; shape R notround by=MK", LetterClaim.NotMet)]
    [InlineData("shape R notround by=KL; shape R round by=MK", LetterClaim.Contradicted)]
    public void Round_and_not_round_by_two_people_is_neither(string shapes, object letter)
    {
        var exam = Script.Run(Measured + "shape L round;" + shapes).Exam;
        Assert.Equal(
            (CriterionVerdict.CannotTell, FindingReason.Contradiction),
            Of(exam, "shape-not-round", Eye.Right)
        );
        Assert.Equal((LetterClaim)letter, Perrla.Of(exam).Round);
        Assert.Equal(ContradictionKind.OtherPerson, Assert.Single(Contradictions.Of(exam)).Kind);
        Assert.Contains("CONTRADICTION, shape of OD (right)", ChartText.OneLine(exam), StringComparison.Ordinal);
    }

    [Fact]
    public void Round_and_later_not_round_by_one_person_counts_as_not_round()
    {
        var exam = Script.Run(Measured + "shape L round; shape R round; shape R notround").Exam;
        Assert.Equal((CriterionVerdict.Met, FindingReason.None), Of(exam, "shape-not-round", Eye.Right));
        Told(exam, "shape of OD (right): not round counts, entered by AB after round");
    }

    [Fact]
    public void Near_responses_by_two_people_that_differ_tell_nothing_of_light_and_near()
    {
        var exam = Script
            .Run(Lit + "direct R 1; direct L 3; mode hold near; +3000; near L 3; near R 0 by=KL; near R 3 by=MK")
            .Exam;
        Assert.Equal(
            (CriterionVerdict.CannotTell, FindingReason.Contradiction),
            Of(exam, "light-near-dissociation", Eye.Right)
        );
        Assert.Equal(LetterClaim.Contradicted, Perrla.Of(exam).Accommodation);
        Assert.Contains(
            "CONTRADICTION, near response of OD (right)",
            ChartText.OneLine(exam),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Consensual_responses_by_two_people_that_differ_tell_no_side()
    {
        var exam = Script
            .Run(Lit + "direct R 0; direct L 3; consensual R 0; consensual L 3 by=KL; consensual L 0 by=MK")
            .Exam;
        Assert.Equal(
            (CriterionVerdict.CannotTell, FindingReason.Contradiction),
            Of(exam, "afferent-pattern", Eye.Right)
        );
        Assert.Contains(
            "CONTRADICTION, consensual response of OD (right)",
            ChartText.OneLine(exam),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("swing short alike by=KL; swing short R by=MK; swing long alike")]
    [InlineData("swing short R by=KL; swing short alike by=MK; swing long alike")]
    [InlineData("swing short R by=KL; swing short R by=MK; swing short alike by=KL; swing long R")]
    public void Two_people_who_saw_one_run_of_the_swinging_test_otherwise_disagree(string outcomes)
    {
        var exam = Script.Run(Swung + outcomes).Exam;
        var swinging = Swinging.Of(exam);
        Assert.Equal((SwingState.Disagree, null as Eye?), (swinging.State, swinging.Eye));
        Assert.True(swinging.ShortDwell.DiffersFromAnother);
        Assert.Equal((CriterionVerdict.CannotTell, FindingReason.Disagree), Of(exam, "rapd", null));
        Assert.Equal(
            ContradictionKind.SameRun,
            Assert.Single(Contradictions.Of(exam), one => one.Kind != ContradictionKind.Replaced).Kind
        );
        var chart = ChartText.OneLine(exam);
        Assert.Contains("otherwise by another examiner", chart, StringComparison.Ordinal);
        Assert.Contains("neither counts, repeat", chart, StringComparison.Ordinal);
    }

    [Fact]
    public void One_who_corrects_an_outcome_of_the_swinging_test_is_taken_at_the_later_word()
    {
        var exam = Script.Run(Swung + "swing short R; swing short alike; swing long alike").Exam;
        Assert.Equal(SwingState.NoneSeen, Swinging.Of(exam).State);
        Told(exam, "swinging, short dwell, run 1: alike counts, entered by AB after OD (right) worse");
    }

    [Fact]
    public void No_direct_response_and_both_eyes_alike_claims_nothing_and_says_why()
    {
        var exam = Script
            .Run(
                Lit
                    + "direct R 0; direct L 3; consensual L 3; mode hold short; swings 1000 4 R; mode hold long; swings 3000 4 R; "
                    + "swing short alike; swing long alike"
            )
            .Exam;
        Assert.Equal(SwingState.AlikeContradicted, Swinging.Of(exam).State);
        Assert.Equal((CriterionVerdict.CannotTell, FindingReason.Contradiction), Of(exam, "rapd", null));
        Assert.Contains(
            "though a watched pupil does not respond to light in its own eye",
            ChartText.OneLine(exam),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("direct R 0 by=KL; direct R 3 by=MK", "alike", SwingState.AlikeUnresponsive)]
    [InlineData("direct R 3 by=KL; direct R 0 by=MK", "alike", SwingState.AlikeUnresponsive)]
    [InlineData("direct R 0 by=KL; direct R 3 by=MK", "R", SwingState.WorseUnresponsive)]
    [InlineData("direct R 2 by=KL; direct R 3 by=MK", "R", SwingState.Seen)]
    public void A_pupil_that_anybody_saw_not_respond_bears_out_no_swinging_test(
        string grades,
        string outcome,
        object state
    )
    {
        var exam = Script
            .Run(
                Lit
                    + $"direct L 3; {grades}; mode hold short; swings 1000 4 R; mode hold long; swings 3000 4 R; "
                    + $"swing short {outcome}; swing long {outcome}"
            )
            .Exam;
        Assert.Equal((SwingState)state, Swinging.Of(exam).State);
    }

    [Fact]
    public void What_was_judged_of_a_pupil_that_cannot_be_there_is_kept_and_claims_nothing()
    {
        var exam = Script
            .Run(Lit + "shape R notround; shape L round; direct R 3; direct L 3; status R prosthesis")
            .Exam;
        Assert.Equal((CriterionVerdict.CannotTell, FindingReason.EyeStatus), Of(exam, "direct-poor", Eye.Right));
        Assert.Equal((CriterionVerdict.CannotTell, FindingReason.EyeStatus), Of(exam, "shape-not-round", Eye.Right));
        Assert.Equal(LetterClaim.Unreliable, Perrla.Of(exam).ReactiveToLight);
        Told(
            exam,
            "CONTRADICTION, direct response of OD (right): 3+ by AB, though the eye is entered as prosthesis; nothing is claimed from it"
        );
        Told(
            exam,
            "CONTRADICTION, shape of OD (right): not round by AB, though the eye is entered as prosthesis; nothing is claimed from it"
        );
    }

    [Fact]
    public void The_record_keeps_both_answers_and_says_which_counts()
    {
        var exam = Script.Run(Lit + "direct L 3; direct R 0 by=KL; direct R 3 by=MK; ready").Exam;
        var record = SignedRecords.Of(new CriteriaInput { Exam = exam }, "1.0");
        Assert.Equal(
            [("KL", "0", false, "replaced"), ("MK", "3", true, null)],
            record
                .Judgements.Where(j => j is { Judged: "direct", Eye: "right" })
                .Select(j => (j.Who, j.Answer, j.Counts, j.WhyNot))
        );
        Assert.Contains(record.Chart.Block, line => line.StartsWith("Note: CONTRADICTION", StringComparison.Ordinal));
        Assert.Contains("CONTRADICTION", record.Chart.Line, StringComparison.Ordinal);
    }

    /// <summary>Both lengths of the chart say it.</summary>
    private static void Told(Exam exam, string note)
    {
        Assert.Contains(note, ChartText.OneLine(exam), StringComparison.Ordinal);
        Assert.Contains($"Note: {note}", ChartText.Block(exam));
    }

    private static (CriterionVerdict, FindingReason) Of(Exam exam, string criterion, Eye? eye)
    {
        var finding = Assert.Single(
            Findings.Of(new CriteriaInput { Exam = exam }),
            one => one.Criterion == criterion && (eye is null || one.Eye == eye)
        );
        return (finding.Verdict, finding.Reason);
    }
}
