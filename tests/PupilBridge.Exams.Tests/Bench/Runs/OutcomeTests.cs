using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Tests.Bench.Runs;

/// <summary>What quick checks and studies on people say, on readings small enough to work out by hand.</summary>
public sealed class OutcomeTests
{
    private const string Quick = "meet A; bench quick R d5 L d5 R d5 L d5 R d5 L d5;";

    /// <summary>
    /// 5.02, 5.03, 5.04 mm: mean error 0.03, s = 0.01 with 2 degrees of freedom, of the mean 0.01/√3; steps of 10 µm give 0.01²/6; the
    /// disc 0.003 and the set 0.002 mm. u² = 3.3333e-5 + 1.6667e-5 + 9e-6 + 4e-6 = 6.3e-5; ν = 6.3e-5² / (3.3333e-5²/2) = 7.1442
    /// (JCGM 100:2008, G.4.1), worked out by hand.
    /// </summary>
    [Fact]
    public void A_quick_check_gives_the_error_of_one_disc_and_as_wide_an_interval_as_its_few_readings_allow()
    {
        var check = QuickCheckOutcome.Of(
            Script.Run(Quick + "pair R 5020; pair L 5000; pair R 5030; pair L 5000; pair R 5040; pair L 5000").Run
        );
        var right = check.Right;
        Assert.Equal((3, "d5"), (right.Readings, right.Disc.Name));
        Assert.Equal(0.03, right.ErrorMillimetres!.Value, 12);
        Assert.Null(right.RemainingMillimetres);
        Assert.Equal(Quantiles.StudentT(7.1442) * Math.Sqrt(6.3e-5), right.ExpandedMillimetres!.Value, 7);
        Assert.Equal(ConformityStatement.Pass, right.Statement);
        // Readings that are all alike: only the steps and the discs are uncertain, and known outright: 1.96·√(1.6667e-5 + 1.3e-5).
        Assert.Equal(1.959964 * Math.Sqrt(2.966667e-5), check.Left.ExpandedMillimetres!.Value, 7);
    }

    [Fact]
    public void One_reading_alone_says_nothing_of_the_scatter_and_nothing_is_decided()
    {
        var right = QuickCheckOutcome.Of(Script.Run(Quick + "pair R 5020").Run).Right;
        Assert.Equal(0.02, right.ErrorMillimetres!.Value, 12);
        Assert.Null(right.ExpandedMillimetres);
        Assert.Null(right.Statement);
    }

    [Fact]
    public void A_scale_without_a_reading_gets_nothing_at_all()
    {
        var left = QuickCheckOutcome.Of(Script.Run(Quick + "pair R 5020").Run).Left;
        Assert.Equal(new QuickCheckScale(left.Disc, 0, null, null, null, null), left);
    }

    /// <summary>
    /// The calibration in force corrects by −0.03 mm and found a scatter of 0.01 mm with 3 degrees of freedom: one reading of 5.02 leaves
    /// −0.01 mm. u² = 1e-4 + 1.6667e-5 + 1.3e-5 + 1e-6 of the line; ν = u⁴/(1e-4²/3) = 5.1222.
    /// </summary>
    [Fact]
    public void With_a_calibration_what_remains_is_decided_and_its_scatter_counts()
    {
        var right = QuickCheckOutcome
            .Of(
                Script
                    .Run(
                        "meet A; bench calibration all 2; finish; issue 1 offset=-0.03; bench quick R d5 L d5; pair R 5020"
                    )
                    .Runs.Values.Last()
            )
            .Right;
        Assert.Equal(0.02, right.ErrorMillimetres!.Value, 12);
        Assert.Equal(-0.01, right.RemainingMillimetres!.Value, 12);
        Assert.Equal(Quantiles.StudentT(5.1222) * Math.Sqrt(1.306667e-4), right.ExpandedMillimetres!.Value, 6);
        Assert.Equal(ConformityStatement.Pass, right.Statement);
    }

    [Fact]
    public void What_remains_beyond_the_limit_is_told()
    {
        const string readings = "pair R 5200; pair L 5095; pair R 5201; pair L 5096; pair R 5200; pair L 5095";
        var check = QuickCheckOutcome.Of(Script.Run(Quick + readings).Run);
        Assert.Equal(ConformityStatement.Fail, check.Right.Statement);
        Assert.Equal(ConformityStatement.ConditionalPass, check.Left.Statement);
    }

    [Fact]
    public void Readings_set_aside_and_by_the_other_scale_do_not_count()
    {
        var check = QuickCheckOutcome.Of(
            Script.Run(Quick + "pair R 5020; pair L 5020; pair L 5900; pair R 5900; reading 4 aside slipped").Run
        );
        Assert.Equal((1, 1), (check.Right.Readings, check.Left.Readings));
    }

    private const string Study =
        "meet A; bench live R bright L bright R bright L bright R bright L bright R dim L dim R dim L dim R dim L dim;";

    /// <summary>Three settings each, −0.1, 0, +0.1 mm about the middle: 4·0.02 mm² over 8 degrees of freedom.</summary>
    [Fact]
    public void A_study_pools_the_settings_of_each_eye_and_light()
    {
        var study = LiveStudyOutcome.Of(
            Script
                .Run(
                    Study
                        + "bright; pair R 3100; pair L 3200; pair R 3200; pair L 3300; pair R 3300; pair L 3400;"
                        + "dim; pair R 6000; pair L 6100; pair R 6100; pair L 6200; pair R 6200; pair L 6300"
                )
                .Run
        );
        Assert.Null(study.Refusal);
        Assert.Equal((8, 0.1), (study.Found!.DegreesOfFreedom, Math.Round(study.Found.WithinMillimetres, 12)));
    }

    [Fact]
    public void Settings_in_the_wrong_light_leave_a_study_unfinished_and_it_says_what_is_missing()
    {
        var study = LiveStudyOutcome.Of(
            Script.Run(Study + "dim; pair R 3100; pair L 3200; pair R 3200; pair L 3300; pair R 3300; pair L 3400").Run
        );
        Assert.Null(study.Found);
        Assert.Contains("both eyes in bright and in dim light", study.Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Each_outcome_wants_its_own_kind_of_run()
    {
        var timing = Script.Run("meet A; bench timing").Run;
        var exam = Script.Run("meet A; open Q-1001").Exam;
        foreach (var sitting in new[] { timing, exam })
        {
            Assert.Throws<ArgumentException>(() => QuickCheckOutcome.Of(sitting));
            Assert.Throws<ArgumentException>(() => LiveStudyOutcome.Of(sitting));
            Assert.Throws<ArgumentException>(() => CalibrationOutcome.Of(sitting));
        }

        Assert.Throws<ArgumentException>(() => RunProgress.Of(exam));
        Assert.Throws<ArgumentException>(() => BenchRunSummary.Of(exam));
    }

    [Theory]
    [InlineData("pair R 2030; pair L 2030", "there are 1")] // one disc only
    [InlineData("measure 30; reading 1 aside dust", "was read 1 time")]
    public void A_calibration_that_gives_no_fit_says_why_and_keeps_its_readings(string readings, string why)
    {
        var run = Script
            .Run("meet A; bench calibration R d2 L d2 R d5 L d5 R d8 L d8 R d2 L d2 R d5 L d5 R d8 L d8;" + readings)
            .Run;
        var right = CalibrationOutcome.Of(run).Right;
        Assert.Null(right.Fit);
        Assert.Null(right.Calibrated);
        Assert.Contains(why, right.Refusal, StringComparison.Ordinal);
        Assert.NotEmpty(run.Captures);
    }
}
