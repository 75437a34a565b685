using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Criteria.Grading;

namespace PupilBridge.Clinic.Tests.Desk;

public sealed class DefectGradeEntryTests : IDisposable
{
    private readonly Support.Clinic clinic = new();

    [Fact]
    public async Task A_bracket_is_guided_from_filter_to_filter_and_ends_in_a_finding()
    {
        var exam = await clinic.ExamineAsync(swing: "worse OD");
        var begin = (await clinic.RecordAsync(exam)).Exam.DefectGrade;
        Assert.Equal(("OD", "OS", 0.3m), (begin.Eye, begin.BeforeEye, begin.NextLogUnits));
        Assert.Contains("Hold the 0.3 log unit filter before OS (left)", begin.Prompt, StringComparison.Ordinal);

        await clinic.CountsAsync(Step(exam, 0.3m, "OD"), Step(exam, 0.6m, "alike"), Step(exam, 0.9m, "OS"));

        var done = (await clinic.RecordAsync(exam)).Exam;
        Assert.Equal([0.3m, 0.6m, 0.9m], done.DefectGrade.Steps.Select(s => s.LogUnits));
        var finding = done.Findings.Single(f => f.Criterion == "rapd-log-units");
        Assert.Equal(("met", 0.6m, "OD"), (finding.Verdict, finding.Value, finding.Eye));
        Assert.Equal(done.DefectGrade.Steps.Select(s => s.Sequence), finding.Raw.Select(raw => raw.Sequence));
    }

    [Theory]
    [InlineData("Both eyes cannot be the worse one", "OD", "OS")]
    [InlineData("Say one thing", "OD", "alike")]
    [InlineData("Say one thing", "alike", "could-not-see")]
    [InlineData("Say one thing")]
    [InlineData("Say one thing", "OU")]
    public async Task What_contradicts_itself_is_refused_with_the_reason(string why, params string[] seen)
    {
        var exam = await clinic.ExamineAsync(swing: "worse OD");
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Step(exam, 0.3m, seen)));
        Assert.Contains(why, refused.Reason, StringComparison.Ordinal);
        Assert.Empty(clinic.Exam(exam).FilterSteps);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.4)]
    [InlineData(3.3)]
    [InlineData(-0.3)]
    public async Task What_is_no_filter_is_refused(double logUnits)
    {
        var exam = await clinic.ExamineAsync(swing: "worse OD");
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Step(exam, (decimal)logUnits, "OD")));
        Assert.Contains("steps of 0.3", refused.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_filter_out_of_turn_is_refused_before_it_is_recorded()
    {
        var exam = await clinic.ExamineAsync(swing: "worse OD");
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Step(exam, 0.9m, "OD")));
        Assert.Contains("0.3 log units, not 0.9", refused.Reason, StringComparison.Ordinal);
        Assert.Empty(clinic.Exam(exam).FilterSteps);
    }

    [Fact]
    public async Task A_step_is_taken_back_like_any_entry()
    {
        var exam = await clinic.ExamineAsync(swing: "worse OD");
        var step = Step(exam, 0.3m, "OD");
        await clinic.CountsAsync(step);
        await clinic.CountsAsync(clinic.Withdrawing(exam, step.EntryId));
        Assert.Empty((await clinic.RecordAsync(exam)).Exam.DefectGrade.Steps);
        Assert.NotNull(Assert.Single(clinic.Exam(exam).FilterSteps).WithdrawnBy);
    }

    [Fact]
    public async Task Grade_four_is_neither_offered_nor_taken_without_six_seconds()
    {
        var exam = await clinic.ExamineAsync(swing: "worse OD");
        Assert.Equal(
            ["I", "II", "III", "V"],
            (await clinic.RecordAsync(exam)).Exam.DefectGrade.Offered.Select(one => one.Grade)
        );
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Grade(exam, "IV")));
        Assert.Contains("6 s of light", refused.Reason, StringComparison.Ordinal);
        await clinic.CountsAsync(Grade(exam, "ii"));
        Assert.Equal(BellGrade.II, Assert.Single(clinic.Exam(exam).BellGrades).Grade);
        Assert.Equal("II", (await clinic.RecordAsync(exam)).Exam.DefectGrade.Bell!.Grade);
    }

    [Theory]
    [InlineData("2")]
    [InlineData("VI")]
    [InlineData("")]
    public async Task What_is_no_grade_of_the_scale_is_refused(string grade)
    {
        var exam = await clinic.ExamineAsync(swing: "worse OD");
        var refused = Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(Grade(exam, grade)));
        Assert.Contains("no grade of the scale of Bell 1993", refused.Reason, StringComparison.Ordinal);
    }

    private FilterStepEntry Step(long exam, decimal logUnits, params string[] seen) =>
        new()
        {
            EntryId = clinic.NewId(),
            Who = "MK",
            At = clinic.Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            BeforeEye = "OS",
            LogUnits = logUnits,
            Seen = seen,
        };

    private BellGradeEntry Grade(long exam, string grade) =>
        new()
        {
            EntryId = clinic.NewId(),
            Who = "MK",
            At = clinic.Instrument.Now,
            ProgramVersion = "0.1.0",
            Exam = exam,
            Eye = "OD",
            Grade = grade,
        };

    public void Dispose() => clinic.Dispose();
}
