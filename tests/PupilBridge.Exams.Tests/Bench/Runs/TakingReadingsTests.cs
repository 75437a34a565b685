using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench.Runs;

/// <summary>A run takes its readings as an exam does, each for the step that was asked for when it came.</summary>
public class TakingReadingsTests
{
    private const string Discs = "bench calibration R d2 L d2 R d5 L d5;";

    [Theory]
    [InlineData("meet A; mode measure;", "pair R 2030; pair L 2040; pair R 5030; pair L 5040", CaptureManner.Marked)]
    [InlineData(
        "meet B; mode measure;",
        "slide R 2030; slide L 2040; slide R 5030; slide L 5040",
        CaptureManner.NasalEdgeAtHome
    )]
    public void Readings_are_taken_in_the_order_of_the_plan(string meet, string readings, object manner)
    {
        var run = Script.Run(meet + Discs + readings).Run;
        var progress = RunProgress.Of(run);
        Assert.Equal(run.Bench!.Plan, progress.Readings.Select(r => r.Step!.Value));
        Assert.All(progress.Readings, r => Assert.Equal(RunReadingState.Counts, r.State));
        Assert.All(progress.Readings, r => Assert.Equal((CaptureManner)manner, r.Capture.Manner));
        Assert.Equal([2.03, 2.04, 5.03, 5.04], progress.Readings.Select(r => r.IndicatedMillimetres));
        Assert.Null(progress.Asked);
    }

    [Fact]
    public void What_is_no_pupil_may_be_a_disc()
    {
        // By the profile neither 400 µm nor 14 mm is a pupil.
        const string readings = "pair R 400; pair R 14000";
        Assert.Empty(Script.Run("meet A; open Q-1001;" + readings).Exam.Captures);
        var run = Script.Run("meet A; bench calibration R d2 R d8;" + readings).Run;
        Assert.Equal([400, 14000], run.Captures.Select(c => c.Raw.Value));
    }

    [Fact]
    public void A_reading_by_the_other_scale_counts_for_nothing_and_the_step_is_asked_for_again()
    {
        var progress = RunProgress.Of(Script.Run("meet A;" + Discs + "pair L 2030; pair R 2030; pair L 2035").Run);
        Assert.Equal(
            [RunReadingState.OtherScale, RunReadingState.Counts, RunReadingState.Counts],
            progress.Readings.Select(r => r.State)
        );
        Assert.Equal(new BenchStep(Eye.Right, "d5", null), progress.Asked);
    }

    [Fact]
    public void Readings_after_the_last_step_are_kept_as_not_asked_for()
    {
        var progress = RunProgress.Of(Script.Run("meet A; bench calibration R d2; pair R 2030; pair R 2031").Run);
        Assert.Equal([RunReadingState.Counts, RunReadingState.NotAsked], progress.Readings.Select(r => r.State));
        Assert.Null(progress.Readings[1].Step);
    }

    [Fact]
    public void A_setting_in_another_light_than_the_one_asked_for_or_in_one_that_nobody_named_does_not_count()
    {
        var run = Script
            .Run(
                "meet A; run: bench live R bright L bright R dim L dim; pair R 3200; bright; pair R 3210; dim; pair L 5100;"
                    + "say bright exam=run; pair L 3190; say dim exam=run; pair R 5110; pair L 5120"
            )
            .Run;
        var progress = RunProgress.Of(run);
        Assert.Equal(
            [
                RunReadingState.OtherLight,
                RunReadingState.Counts,
                RunReadingState.OtherLight,
                RunReadingState.Counts,
                RunReadingState.Counts,
                RunReadingState.Counts,
            ],
            progress.Readings.Select(r => r.State)
        );
        Assert.Null(progress.Asked);
    }

    [Fact]
    public void A_pair_begun_before_the_run_and_one_begun_within_it_never_meet()
    {
        var folded = Script.Run("meet A; open Q-1001; edge R N 5000; +500; bench calibration R d2; edge R T 7030");
        Assert.Empty(folded.Exam.Captures);
        Assert.Empty(folded.Run.Captures);
        Assert.Equal(PairRefusalReason.ExamEnded, Assert.Single(folded.Exam.RefusedPairs).Reason);
    }

    [Fact]
    public void Events_of_another_instrument_never_join_a_run()
    {
        // The instrument is swapped in the middle: another one on the same line reads the rest.
        var folded = Script.Run(
            "meet A; @Z meet A;" + Discs + "pair R 2030; @Z pair L 2030; @Z pair R 5030; pair L 2040; @Z off"
        );
        Assert.Equal([2030, 2040], folded.Run.Captures.Select(c => c.Raw.Value));
        Assert.Equal(new SerialNumber("Z"), folded.Exam.Serial);
        Assert.Equal([2030, 5030], folded.Exam.Captures.Select(c => c.Raw.Value));
        Assert.True(folded.Run.TakesEvents);
    }

    [Fact]
    public void An_instrument_that_comes_back_as_another_model_is_told_of_and_its_half_reading_is_none()
    {
        var run = Script.Run("meet A;" + Discs + "pair R 2030; edge L N 5000; meet B; edge L T 7030").Run;
        Assert.Single(run.Captures);
        Assert.Contains(run.Incidents, i => i.Kind == IncidentKind.IdentityChanged);
        Assert.Contains(run.RefusedPairs, p => p.Reason == PairRefusalReason.ScaleUnknown);
    }

    [Fact]
    public void A_run_is_no_exam_and_stands_in_no_change_of_one()
    {
        var folded = Script.Run("meet A;" + Discs + "measure 30; finish");
        Assert.Empty(folded.Exams);
        Assert.Empty(folded.Changes.OfType<ExamChanged>());
        Assert.Null(folded.Book.OpenExamOf(folded.Run.Serial));
    }
}
