using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Assembly;

public class StimulusRulesTests
{
    private const string Begin = "meet A; bright; open Q-1001; +1000; mode measure; +500;";

    // Default profile: 1 s within 5 %; a tick is a whole millisecond, so that a difference of two is known to within one.
    [Theory]
    [InlineData(1000, TimingVerdict.Within, StimulusEnd.Complete)]
    [InlineData(951, TimingVerdict.Within, StimulusEnd.Complete)]
    [InlineData(1049, TimingVerdict.Within, StimulusEnd.Complete)]
    [InlineData(950, TimingVerdict.CannotTell, StimulusEnd.Complete)]
    [InlineData(949, TimingVerdict.CannotTell, StimulusEnd.Complete)]
    [InlineData(1050, TimingVerdict.CannotTell, StimulusEnd.Complete)]
    [InlineData(1051, TimingVerdict.CannotTell, StimulusEnd.Complete)]
    [InlineData(948, TimingVerdict.TooShort, StimulusEnd.CutShort)]
    [InlineData(1052, TimingVerdict.TooLong, StimulusEnd.Complete)]
    [InlineData(300, TimingVerdict.TooShort, StimulusEnd.CutShort)]
    public void A_dwell_is_held_to_the_profile_with_the_ticks_own_step(int dwell, object verdict, object end)
    {
        var stimulus = Assert.Single(Script.Run(Begin + $"mode hold direct; stim R {dwell}").Exam.Stimuli);
        Assert.Equal((long?)dwell, stimulus.DwellMilliseconds);
        Assert.Equal(((TimingVerdict)verdict, (StimulusEnd)end), (stimulus.DwellVerdict, stimulus.End));
    }

    // Bell RA et al., Arch Ophthalmol 1993;111(7):938–942: 3-second pause per eye.
    [Theory]
    [InlineData("long", 3000, TimingVerdict.Within)]
    [InlineData("long", 1000, TimingVerdict.TooShort)]
    [InlineData("short", 3000, TimingVerdict.TooLong)]
    public void The_long_dwell_is_3_s_and_the_short_one_1_s(string block, int dwell, object verdict) =>
        Assert.Equal(
            (TimingVerdict)verdict,
            Assert.Single(Script.Run(Begin + $"mode hold {block}; stim R {dwell}").Exam.Stimuli).DwellVerdict
        );

    [Fact]
    public void The_gap_between_stimuli_of_one_eye_is_held_to_the_profile()
    {
        var exam = Script
            .Run(Begin + "mode hold direct; stim R 1000; +3000; stim R 1000; +2000; stim R 1000; +9; stim L 1000")
            .Exam;
        Assert.Equal([null, 3000L, 2000L, 9L], exam.Stimuli.Select(s => s.GapMilliseconds));
        Assert.Equal(
            [TimingVerdict.NotJudged, TimingVerdict.Within, TimingVerdict.TooShort, TimingVerdict.NotJudged],
            exam.Stimuli.Select(s => s.GapVerdict)
        );
    }

    [Fact]
    public void A_duration_never_spans_two_boots()
    {
        var exam = Script.Run(Begin + "mode hold direct; lamp R on; boot; +1000; lamp R off").Exam;
        var stimulus = Assert.Single(exam.Stimuli);
        Assert.Equal((StimulusEnd.EndLost, (long?)null), (stimulus.End, stimulus.DwellMilliseconds));
        Assert.Contains(exam.Incidents, i => i.Kind == IncidentKind.LampOutOfTurn);
    }

    [Theory]
    [InlineData("lamp R on; gap 1; lamp R off", StimulusEnd.EndLost)]
    [InlineData("lamp R on; off", StimulusEnd.EndLost)]
    [InlineData("lamp R on; ready", StimulusEnd.EndLost)]
    [InlineData("lamp R on; +500; lamp L on; +500; lamp R off", StimulusEnd.Overlapped)]
    [InlineData("lamp R on; lamp R on", StimulusEnd.EndLost)]
    [InlineData("lamp R on", StimulusEnd.Running)]
    public void A_stimulus_that_is_not_whole_says_why(string script, object end) =>
        Assert.Equal((StimulusEnd)end, Script.Run(Begin + "mode hold direct; " + script).Exam.Stimuli[0].End);

    [Fact]
    public void A_direct_block_reaches_its_count_with_three_stimuli_in_each_eye()
    {
        var run = Assert.Single(BlockRuns.Of(Script.Run(Begin + "mode hold direct; directs").Exam));
        Assert.Equal((3, 3, true, true), (run.Right, run.Left, run.HasReachedCount, run.IsTimely));
        var less = Script
            .Run(Begin + "mode hold direct; stim R 1000; stim R 1000; stim R 1000; stim L 1000; stim L 1000")
            .Exam;
        Assert.False(Assert.Single(BlockRuns.Of(less)).HasReachedCount);
    }

    [Theory]
    [InlineData("R")]
    [InlineData("L")]
    public void Either_eye_may_start_the_alternations(string first)
    {
        var run = Assert.Single(BlockRuns.Of(Script.Run(Begin + $"mode hold short; swings 1000 4 {first}").Exam));
        Assert.Equal((4, true), (run.Alternations, run.HasReachedCount));
    }

    [Theory]
    [InlineData("swings 1000 3 R", 3)] // one too few
    [InlineData("swings 1000 2 R; +502; swings 1000 2 R", 2)] // too long a dark break
    [InlineData("swings 1000 2 R; mode hold long; mode hold short; swings 1000 2 R", 2)] // interrupted
    [InlineData("swings 1000 2 R; stim L 1000; swings 1000 2 R", 2)] // the same eye twice
    [InlineData("swings 1000 2 R; stim R 200; swings 1000 2 L", 2)] // one cut short
    public void Alternations_that_do_not_follow_each_other_do_not_add_up(string script, int alternations)
    {
        var run = Assert.Single(BlockRuns.Of(Script.Run(Begin + "mode hold short; " + script).Exam, Block.SwingShort));
        Assert.Equal((alternations, false), (run.Alternations, run.HasReachedCount));
    }

    [Fact]
    public void One_dwell_out_of_tolerance_makes_the_run_untimely() =>
        Assert.False(
            Assert
                .Single(BlockRuns.Of(Script.Run(Begin + "mode hold short; stim L 1200; swings 1000 4 R").Exam))
                .IsTimely
        );

    [Fact]
    public void A_stop_merely_passed_is_no_run_and_no_repeat()
    {
        var exam = Script.Run(Begin + "mode hold direct; mode hold short; mode hold direct; directs").Exam;
        var run = Assert.Single(BlockRuns.Of(exam));
        Assert.Equal((Block.Direct, 1, false), (run.Block, run.Number, run.WasInterrupted));
    }

    [Fact]
    public void A_block_left_before_its_count_goes_on_when_it_comes_again()
    {
        var exam = Script
            .Run(
                Begin + "mode sequence direct; stim R 1000; mode hold short; swings 1000 1 R; mode hold direct; directs"
            )
            .Exam;
        var run = Assert.Single(BlockRuns.Of(exam, Block.Direct));
        Assert.Equal((1, 4, true, true), (run.Number, run.Right, run.HasReachedCount, run.WasInterrupted));
    }

    [Fact]
    public void A_block_that_reached_its_count_and_comes_again_is_a_counted_repeat()
    {
        var exam = Script.Run(Begin + "mode sequence direct; directs; mode hold short; mode hold direct; directs").Exam;
        Assert.Equal([1, 2], BlockRuns.Of(exam, Block.Direct).Select(r => r.Number));
    }

    [Fact]
    public void A_held_block_goes_on_in_the_same_run_until_the_dial_moves() =>
        Assert.Equal(
            (6, 6),
            BlockRuns
                .Of(Script.Run(Begin + "mode hold direct; directs; directs").Exam)
                .Select(run => (run.Right, run.Left))
                .Single()
        );

    [Fact]
    public void From_sequence_to_hold_and_back_the_same_run_goes_on_until_its_count()
    {
        const string leave = "mode sequence direct; stim R 1000; mode hold direct;";
        var before = Script.Run(Begin + leave + "stim R 1000; mode sequence direct; directs").Exam;
        Assert.Equal(5, Assert.Single(BlockRuns.Of(before)).Right);
        var after = Script.Run(Begin + leave + "directs; mode sequence short; swings 1000 4 R").Exam;
        Assert.Equal([Block.Direct, Block.SwingShort], BlockRuns.Of(after).Select(run => run.Block));
        Assert.All(BlockRuns.Of(after), run => Assert.Equal(1, run.Number));
    }
}
