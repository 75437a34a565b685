using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Exams.Tests.Bench.Runs;

/// <summary>Where a run begins and ends.</summary>
public class RunBorderTests
{
    private const string Begin = "meet A; bench timing; mode hold short; swings 1000 1 R;";

    [Theory]
    [InlineData("mode measure; +2000; dim; pair R 4000")]
    [InlineData("mode measure; +100; pair R 4000")]
    [InlineData("gap 1; pair R 4000")]
    public void Measure_after_swinging_ends_an_exam_and_no_run(string script)
    {
        var run = Script.Run(Begin + script).Run;
        Assert.Null(run.Closing);
        Assert.Equal(4000, Assert.Single(run.Captures).Raw.Value);
        Assert.Equal(2, run.Stimuli.Count);
    }

    [Theory]
    [InlineData("finish", ClosingReason.MadeReady)]
    [InlineData("giveup the scale is stuck", ClosingReason.SetAside)]
    [InlineData("off", ClosingReason.SwitchedOff)]
    [InlineData("+1800000; silence", ClosingReason.Silence)]
    [InlineData("+1800000; mode idle", ClosingReason.Silence)]
    [InlineData("open Q-1001", ClosingReason.AnotherOpened)]
    public void A_run_closes_by_rule(string script, object reason)
    {
        var folded = Script.Run(Begin + script);
        Assert.Equal((ClosingReason)reason, folded.Run.Closing!.Reason);
        Assert.Null(folded.Book.OpenRunOf(folded.Run.Serial));
    }

    [Fact]
    public void A_run_stays_open_through_a_silence_that_ends_an_exam()
    {
        Assert.NotNull(Script.Run("meet A; open Q-1001; mode measure; pair R 3200; +600000; silence").Exam.Closing);
        Assert.Null(Script.Run("meet A; bench timing; mode measure; pair R 3200; +1797000; silence").Run.Closing);
    }

    [Fact]
    public void A_run_ends_the_exam_before_it_and_takes_nothing_of_it()
    {
        var folded = Script.Run("meet A; open Q-1001; mode measure; pair R 3200; bench calibration R d2; pair R 2030");
        Assert.Equal(ClosingReason.AnotherOpened, folded.Exam.Closing!.Reason);
        Assert.Equal(3200, Assert.Single(folded.Exam.Captures).Raw.Value);
        Assert.Equal(2030, Assert.Single(folded.Run.Captures).Raw.Value);
    }

    [Fact]
    public void After_a_run_the_next_reading_opens_an_exam_without_a_patient()
    {
        var folded = Script.Run("meet A; bench calibration R d2; mode measure; pair R 2030; finish; pair R 3200");
        Assert.Single(folded.Run.Captures);
        Assert.Null(folded.Exam.Patient);
        Assert.Equal(3200, Assert.Single(folded.Exam.Captures).Raw.Value);
    }

    [Fact]
    public void Events_from_before_the_run_that_arrive_within_it_belong_to_the_exam_of_then()
    {
        var folded = Script.Run(
            "meet A; open Q-1001; mode measure; pair R 3200; hold; pair L 3300; +5000; bench calibration R d2; release;"
                + "+1000; pair R 2030"
        );
        Assert.Equal([3200, 3300], folded.Exam.Captures.Select(c => c.Raw.Value));
        Assert.Equal(2030, Assert.Single(folded.Run.Captures).Raw.Value);
    }

    [Fact]
    public void Events_of_the_run_that_arrive_after_it_join_it()
    {
        var folded = Script.Run(
            "meet A; bench calibration R d2 R d5; mode measure; pair R 2030; hold; pair R 5030; +5000; finish; release"
        );
        Assert.Equal([2030, 5030], folded.Run.Captures.Select(c => c.Raw.Value));
        Assert.Contains(folded.Run.Incidents, i => i.Kind == IncidentKind.ArrivedLate);
        Assert.Empty(folded.Exams);
    }

    [Fact]
    public void A_run_that_was_switched_off_can_still_be_finished_and_is_ended_only_once()
    {
        var run = Script.Run(Begin + "off; finish; giveup no reason any more").Run;
        Assert.True(run.Bench!.Ending!.IsFinished);
        Assert.Equal(ClosingReason.SwitchedOff, run.Closing!.Reason);
        Assert.Equal("it was ended before", run.Incidents[^1].Detail);
    }

    [Fact]
    public void Giving_up_wants_a_reason()
    {
        var run = Script.Run(Begin + "giveup").Run;
        Assert.True(run.TakesEvents);
        Assert.Null(run.Bench!.Ending);
        Assert.Equal("a reason is needed", run.Incidents[^1].Detail);
    }

    [Fact]
    public void The_entry_that_began_a_run_begins_none_again()
    {
        var folded = Script.Run("meet A; b: bench timing; +1000; twice b bench timing");
        Assert.True(folded.Run.TakesEvents);
        Assert.Contains(
            folded.Changes.OfType<EntryIgnored>(),
            e => e.Reason.Contains("twice", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_run_on_an_instrument_that_has_one_ends_that()
    {
        var folded = Script.Run("meet A; bench timing; +1000; bench calibration R d2; pair R 2030");
        Assert.Equal([ClosingReason.AnotherOpened, null], folded.Runs.Values.Select(run => run.Closing?.Reason));
        Assert.Equal([0, 1], folded.Runs.Values.Select(run => run.Captures.Count));
    }

    [Fact]
    public void Each_instrument_has_its_own_run()
    {
        var folded = Script.Run(
            "meet A; @Z meet A; bench calibration R d2; @Z bench calibration L d8; @Z pair L 8030; pair R 2030; @Z finish"
        );
        Assert.Equal([2030, 8030], folded.Runs.Values.Select(run => Assert.Single(run.Captures).Raw.Value));
        Assert.Equal([true, false], folded.Runs.Values.Select(run => run.TakesEvents));
    }
}
