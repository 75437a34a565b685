using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench.Runs;

/// <summary>Only a person sets a reading aside, with a reason, and it moves no other reading.</summary>
public class SettingAsideTests
{
    private const string Begin = "meet A; bench calibration R d2 R d5 R d2 R d5; pair R 2030;";

    [Fact]
    public void A_reading_set_aside_is_kept_and_its_step_is_asked_for_again_at_the_end()
    {
        var progress = RunProgress.Of(Script.Run(Begin + "reading 1 aside dust on the disc; pair R 5030").Run);
        Assert.Equal(RunReadingState.SetAside, progress.Readings[0].State);
        Assert.Equal(
            ("dust on the disc", "TK"),
            (progress.Readings[0].Mark!.Reason, progress.Readings[0].Mark!.Who.Value)
        );
        // What came next was read for what was asked for then: the second step, not the first one again.
        Assert.Equal("d5", progress.Readings[1].Step!.Value.Disc);
        Assert.Equal(["d2", "d5", "d2"], progress.ToCome.Select(step => step.Disc!));
    }

    [Fact]
    public void Taken_back_it_counts_again_and_is_not_asked_for_again()
    {
        var progress = RunProgress.Of(
            Script.Run(Begin + "reading 1 aside dust; pair R 5030; reading 1 back there was none").Run
        );
        Assert.All(progress.Readings, r => Assert.Equal(RunReadingState.Counts, r.State));
        Assert.Equal(["d2", "d5"], progress.ToCome.Select(step => step.Disc!));
    }

    [Fact]
    public void Taken_back_after_it_was_measured_again_both_count()
    {
        var progress = RunProgress.Of(
            Script
                .Run(
                    "meet A; bench calibration R d2; pair R 2030; reading 1 aside dust; pair R 2050;"
                        + "reading 1 back there was none"
                )
                .Run
        );
        Assert.Equal([2.03, 2.05], progress.Counting.Select(r => r.IndicatedMillimetres));
        Assert.Null(progress.Asked);
    }

    [Fact]
    public void No_reading_changes_its_step_because_of_what_is_said_later()
    {
        const string readings = "pair R 5030; pair R 2040; pair R 5040;";
        var before = RunProgress.Of(Script.Run(Begin + readings).Run);
        foreach (var marks in new[] { "reading 1 aside x", "reading 4 aside x; reading 2 aside y; reading 4 back z" })
        {
            var after = RunProgress.Of(Script.Run(Begin + readings + marks).Run);
            Assert.Equal(before.Readings.Select(r => r.Step), after.Readings.Select(r => r.Step));
        }
    }

    [Fact]
    public void Nothing_is_set_aside_by_rule_however_far_off_it_is()
    {
        var run = Script.Run("meet A; bench calibration R d2 R d2 R d2; pair R 2030; pair R 2031; pair R 9999").Run;
        Assert.Equal(3, RunProgress.Of(run).Counting.Count());
        Assert.Empty(run.Bench!.Marks);
    }

    [Theory]
    [InlineData("reading 1 aside", "a reason is needed")]
    [InlineData("reading 77 aside dust", "it has no reading 77")]
    [InlineData("reading 1 back never was", "the reading stands so already")]
    [InlineData("reading 1 aside a; reading 1 aside b", "the reading stands so already")]
    public void What_makes_no_sense_is_refused_with_the_reason(string script, string why)
    {
        var run = Script.Run(Begin + script).Run;
        Assert.Equal(why, run.Incidents.Last(i => i.Kind == IncidentKind.EntryNotApplied).Detail);
        Assert.InRange(run.Bench!.Marks.Count, 0, 1);
    }

    [Fact]
    public void The_same_entry_twice_is_taken_once()
    {
        var folded = Script.Run(
            Begin
                + "m: reading 1 aside dust; twice m reading 1 aside dust; reading 1 back no; twice m reading 1 aside dust"
        );
        Assert.Equal([true, false], folded.Run.Bench!.Marks.Select(mark => mark.IsSetAside));
        Assert.DoesNotContain(folded.Run.Incidents, i => i.Kind == IncidentKind.EntryNotApplied);
    }

    [Fact]
    public void After_the_certificate_no_reading_is_set_aside_any_more()
    {
        var run = Script.Run(Begin + "finish; issue 1; reading 1 aside dust").Run;
        Assert.Empty(run.Bench!.Marks);
        Assert.StartsWith("certificate 1 was issued for it", run.Incidents[^1].Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void A_reading_by_the_other_scale_stays_one_whatever_is_said_of_it()
    {
        var progress = RunProgress.Of(
            Script.Run("meet A; bench calibration R d2; pair L 2030; reading 1 aside slip").Run
        );
        Assert.Equal(RunReadingState.OtherScale, progress.Readings[0].State);
        Assert.Equal(new BenchStep(Eye.Right, "d2", null), Assert.Single(progress.ToCome));
    }
}
