using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exams.Tests.Notation;

/// <summary>An exam names the calibration and the lamps that it was made with: in its chart text, its record, its criteria.</summary>
public class CalibrationShownTests
{
    private const string Calibrated = "meet A; mode measure; bench calibration all 2; measure 30; +1000; finish;";
    private const string Exam = "bright; open Q-1001; +1000; pair R 3200; pair L 3200; ready";

    private const string Swung =
        "lux 300; open Q-1001; +1000; mode measure; pair R 3300; pair L 3300; mode hold short; +500; swings 1000 4 L; swing short R; "
        + "ready";

    [Theory]
    [InlineData("issue 1; +1000;", "holds", "calibrated (certificate 1)")]
    [InlineData("issue 1 until=500; +1000;", "expired", "CALIBRATION EXPIRED 1970-01-01 (certificate 1)")]
    [InlineData("", "missing", "uncalibrated")]
    [InlineData("issue 1 from=100000; +1000;", "missing", "uncalibrated")]
    public void Chart_and_record_say_how_the_calibration_stood_when_the_exam_opened(
        string issue,
        string standing,
        string words
    )
    {
        var exam = Script.Run(Calibrated + issue + Exam).Exam;
        Assert.Contains(words, ChartText.OneLine(exam), StringComparison.Ordinal);
        Assert.Contains(ChartText.Block(exam), line => line.Contains(words, StringComparison.Ordinal));
        var record = SignedRecords.Of(exam, "3.0");
        Assert.Equal(standing, record.Calibration!.Standing);
        Assert.Equal(exam.Calibration?.Number, record.Calibration.Number);
        Assert.Equal(exam.Calibration?.Effective.ToString(), record.Calibration.Effective);
        Assert.Equal(exam.Calibration?.Expires?.ToString(), record.Calibration.Expires);
        Assert.Contains(FullChart.Of(record), line => line.Contains(words, StringComparison.Ordinal));
    }

    [Fact]
    public void A_scale_beyond_the_limit_is_said_loudly_though_it_corrects()
    {
        var exam = Script.Run(Calibrated + "issue 1; +1000;" + Exam).Exam;
        var issued = exam.Calibration!;
        var failed = exam with
        {
            Calibration = issued with
            {
                Scales = issued.Scales with
                {
                    Left = issued.Scales.Left with { Statement = ConformityStatement.ConditionalFail },
                },
            },
        };
        Assert.Contains("CALIBRATION FAILED (certificate 1)", ChartText.OneLine(failed), StringComparison.Ordinal);
        Assert.Equal("failed", SignedRecords.Of(failed, "3.0").Calibration!.Standing);
    }

    [Fact]
    public void Lamps_that_nobody_compared_stand_beside_the_swinging_test_and_caution()
    {
        var exam = Script.Run("meet A;" + Swung).Exam;
        Assert.Contains($"Lamps: {LampText.NeverChecked}.", ChartText.OneLine(exam), StringComparison.Ordinal);
        Assert.Contains($"Lamps: {LampText.NeverChecked}", ChartText.Block(exam));
        Assert.Null(SignedRecords.Of(exam, "3.0").Lamps);
        Assert.Equal(CriterionVerdict.NotExamined, Balance(exam).Verdict);
    }

    [Fact]
    public void Where_nothing_swung_no_lamps_are_spoken_of()
    {
        var exam = Script.Run("meet A; mode measure;" + Exam).Exam;
        Assert.DoesNotContain("Lamps", ChartText.OneLine(exam), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("lamps 100,101 99,98", 0, "right against left +0.01 ± ", "within", CriterionVerdict.NotMet)]
    [InlineData("lamps 100,101 99,98", 400, "checked 400 days before", "within", CriterionVerdict.Met)]
    [InlineData("lamps 200,201 99,98", 1, "UNEQUAL, which imitates", "above", CriterionVerdict.NotMet)]
    [InlineData("lamps 200,201 99,98", 1, "checked 1 day before", "above", CriterionVerdict.NotMet)]
    [InlineData("lamps 100,160 99,70", 0, "cannot be told whether alike", "cannot-tell", CriterionVerdict.NotMet)]
    public void Lamps_that_were_compared_stand_there_with_their_age_at_the_exam(
        string lamps,
        int days,
        string words,
        string against,
        CriterionVerdict verdict
    )
    {
        var exam = Aged(Script.Run($"meet A; {lamps}; +1000;" + Swung).Exam, days);
        Assert.Contains(words, ChartText.OneLine(exam), StringComparison.Ordinal);
        var record = SignedRecords.Of(exam, "3.0");
        Assert.Equal((days, against), (record.Lamps!.AgeDays, record.Lamps.Against));
        Assert.Equal((int)Math.Round(exam.LampBalance!.Balance!.LogUnits * 1000), record.Lamps.MilliLogUnits);
        var balance = Balance(exam);
        Assert.Equal(verdict, balance.Verdict);
        Assert.Equal(days, balance.Value);
        var cautions = Findings
            .Of(new CriteriaInput { Exam = exam })
            .Where(finding => finding.Criterion.StartsWith("swinging", StringComparison.Ordinal))
            .SelectMany(finding => finding.Cautions)
            .ToArray();
        Assert.Equal(
            against == "above",
            cautions.Any(c => c.StartsWith("The lamps were unequal", StringComparison.Ordinal))
        );
        Assert.Equal(days > 365, cautions.Any(c => c.Contains("not checked lately", StringComparison.Ordinal)));
    }

    [Fact]
    public void What_the_exam_knows_of_its_lamps_goes_before_what_the_site_says()
    {
        var site = new SiteFacts { LampBalanceAgeDays = 1000 };
        var unknown = Script.Run("meet A;" + Swung).Exam;
        Assert.Equal(1000, new CriteriaInput { Exam = unknown, Site = site }.LampBalanceAgeDays);
        var known = Aged(Script.Run("meet A; lamps 100,101 99,98; +1000;" + Swung).Exam, 3);
        Assert.Equal(3, new CriteriaInput { Exam = known, Site = site }.LampBalanceAgeDays);
    }

    private static Exam Aged(Exam exam, int days) =>
        exam with
        {
            LampBalance = exam.LampBalance! with
            {
                At = UtcTime.From(exam.Opening.When.At.ToDateTimeOffset().AddDays(-days)),
            },
        };

    private static Finding Balance(Exam exam) =>
        Findings.Of(new CriteriaInput { Exam = exam }).Single(finding => finding.Criterion == "lamp-balance-unchecked");
}
