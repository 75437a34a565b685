using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Criteria.Grading;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

public class DefectGradeTests
{
    private const string Begin = "meet A; start 1; lux 300; fix far; open Q-1001; +1000; mode hold long; +500;";
    private const string Defect = Begin + "swings 3000 4 L; swing long R;";

    [Fact]
    public void A_bracket_of_filters_before_the_better_eye_reaches_the_findings_and_the_record()
    {
        var exam = Script.Run(Defect + "filter L 1 StillWorse; filter L 2 Alike; filter L 3 Reversed; ready").Exam;
        var finding = SignedRecords.Findings(new() { Exam = exam }).First(f => f.Criterion == "rapd-log-units");
        // 0.3 worse, 0.6 alike, 0.9 reversed: nulled at 0.6, as exam 68 of docs/criteria.md.
        Assert.Equal(("met", "right", "0.6", "log units"), (finding.Verdict, finding.Eye, finding.Value, finding.Unit));
        Assert.Equal(3, DefectGrades.Bracket(exam)!.Steps.Count);
    }

    [Theory]
    [InlineData("filter L 2 Alike", "the filter that is due before OS (left) is 0.3 log units, not 0.6")]
    [InlineData("filter R 1 Alike", "the swinging test shows none of OS (left)")]
    [InlineData("filter L 1 StillWorse; filter L 3 Alike", "is 0.6 log units, not 0.9")]
    [InlineData("filter L 0 Alike", "is 0.3 log units, not 0.0")]
    public void A_filter_that_is_not_due_is_not_applied_and_says_which_one_is(string done, string why)
    {
        var exam = Script.Run(Defect + done).Exam;
        var refused = Assert.Single(exam.Incidents, i => i.Kind == IncidentKind.EntryNotApplied);
        Assert.Contains(why, refused.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_defect_seen_nothing_is_bracketed_or_graded()
    {
        var exam = Script.Run(Begin + "swings 3000 4 L; swing long alike; filter L 1 Alike; bell R II").Exam;
        Assert.Empty(exam.FilterSteps);
        Assert.Empty(exam.BellGrades);
        Assert.Equal(2, exam.Incidents.Count(i => i.Kind == IncidentKind.EntryNotApplied));
    }

    [Fact]
    public void The_first_filter_again_begins_a_new_bracket_and_the_old_answers_stay_as_they_were_entered()
    {
        var exam = Script.Run(Defect + "filter L 1 StillWorse; filter L 2 StillWorse; filter L 1 Reversed").Exam;
        Assert.Equal(3, exam.FilterSteps.Count);
        var reading = DefectGrades.Bracket(exam)!.Bracket.Reading;
        Assert.Equal((BracketState.Between, 0.0, 0.3), (reading.State, reading.LogUnits, reading.UpperLogUnits));
    }

    [Fact]
    public void What_could_not_be_seen_is_answered_again_at_the_same_filter()
    {
        var exam = Script.Run(Defect + "filter L 1 CouldNotSee; filter L 1 Reversed").Exam;
        var entered = DefectGrades.Bracket(exam)!;
        Assert.Equal(2, entered.Steps.Count);
        Assert.Equal(BracketState.Between, entered.Bracket.Reading.State);
    }

    [Fact]
    public void A_step_taken_back_no_longer_counts_nor_those_that_rested_on_it()
    {
        var exam = Script.Run(Defect + "filter L 1 StillWorse; a: filter L 2 Alike; filter L 3 Reversed; undo a").Exam;
        Assert.Equal(3, exam.FilterSteps.Count);
        var bracket = DefectGrades.Bracket(exam)!.Bracket;
        Assert.Equal((BracketState.Running, 2), (bracket.Reading.State, bracket.Reading.NextStep));
    }

    [Fact]
    public void Grade_four_needs_six_seconds_in_the_better_eye_and_the_others_do_not()
    {
        var without = Script.Run(Defect + "bell R IV; bell R III").Exam;
        Assert.Equal(BellGrade.III, Assert.Single(without.BellGrades).Grade);
        Assert.Contains(
            FindingReasons.Words(FindingReason.NoSixSeconds),
            Assert.Single(without.Incidents, i => i.Kind == IncidentKind.EntryNotApplied).Detail,
            StringComparison.Ordinal
        );
        var with = Script.Run(Begin + "swings 3000 4 L; stim L 6000; stim R 3000; swing long R; bell R IV; ready").Exam;
        Assert.Equal(BellGrade.IV, Assert.Single(with.BellGrades).Grade);
        var finding = SignedRecords.Findings(new() { Exam = with }).First(f => f.Criterion == "rapd-bell-grade");
        Assert.Equal(("met", "right"), (finding.Verdict, finding.Eye));
    }

    [Fact]
    public void A_later_grade_holds_and_one_taken_back_gives_the_former_again()
    {
        var exam = Script.Run(Defect + "bell R II; a: bell R III; undo a").Exam;
        Assert.Equal(BellGrade.II, DefectGrades.Bell(exam)!.Grade);
        Assert.Equal(new BellGrading(Eye.Right, BellGrade.II), new CriteriaInput { Exam = exam }.BellInUse);
    }

    [Fact]
    public void A_signed_exam_takes_neither()
    {
        var exam = Script.Run(Defect + "ready; sign 1 abc; filter L 1 Alike; bell R II").Exam;
        Assert.Empty(exam.FilterSteps);
        Assert.Empty(exam.BellGrades);
    }
}
