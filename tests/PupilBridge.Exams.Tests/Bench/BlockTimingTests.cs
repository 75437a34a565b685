using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench;

/// <summary>Timing of stimuli over sittings: dwell 1000 ms ± 5 %, gap 3000 ms ± 5 % in the direct block by the default profile.</summary>
public sealed class BlockTimingTests
{
    [Fact]
    public void Each_block_and_eye_that_was_lit_is_told_and_no_other()
    {
        var timing = Of("mode hold short; swings 1000 2 R; mode hold direct; stim L 1000; +500; mode idle");
        Assert.Equal(
            [(Block.Direct, Eye.Left, 1), (Block.SwingShort, Eye.Right, 2), (Block.SwingShort, Eye.Left, 2)],
            timing.Select(one => (one.Block, one.Eye, one.Dwell!.Count))
        );
    }

    [Theory]
    [InlineData("stim R 1000", TimingVerdict.Within)]
    [InlineData("stim R 951", TimingVerdict.Within)]
    [InlineData("stim R 950", TimingVerdict.CannotTell)] // the tick's millisecond reaches over the limit of 950
    [InlineData("stim R 949", TimingVerdict.CannotTell)]
    [InlineData("stim R 948", TimingVerdict.TooShort)]
    [InlineData("stim R 1050", TimingVerdict.CannotTell)]
    [InlineData("stim R 1052", TimingVerdict.TooLong)]
    [InlineData("stim R 1000; +3000; stim R 1060; +3000; stim R 1000", TimingVerdict.TooLong)] // the worst one speaks
    public void Dwell_is_held_against_the_profile_with_the_ticks_own_resolution(string stimuli, object verdict)
    {
        var timing = Assert.Single(Of($"mode hold direct; {stimuli}; +5000; mode idle"));
        Assert.Equal(new TimeRange(950, 1050), timing.DwellRange);
        Assert.Equal((TimingVerdict)verdict, timing.DwellVerdict);
    }

    [Theory]
    [InlineData(0, TimingVerdict.Within)]
    [InlineData(1, TimingVerdict.Within)]
    [InlineData(2_000, TimingVerdict.TooLong)]
    public void Between_the_eyes_of_a_swing_no_dark_time_is_too_short(int gap, object verdict)
    {
        var timing = Of($"mode hold short; stim R 1000; +{gap}; stim L 1000; +500; mode idle");
        Assert.Equal((TimingVerdict)verdict, timing.Single(one => one.Eye == Eye.Left).GapVerdict);
        // Before the first stimulus nothing was dark within the block.
        Assert.Equal(TimingVerdict.NotJudged, timing.Single(one => one.Eye == Eye.Right).GapVerdict);
    }

    [Fact]
    public void The_way_over_to_the_other_eye_is_no_gap_of_the_direct_block()
    {
        var timing = Of(
            "mode hold direct; stim R 1000; +3000; stim R 1000; +9000; stim L 1000; +3010; stim L 1000; +500; mode idle"
        );
        Assert.Equal([(1, 3000.0), (1, 3010.0)], timing.Select(one => (one.Gap!.Count, one.Gap.MeanMilliseconds)));
        Assert.All(timing, one => Assert.Equal(TimingVerdict.Within, one.GapVerdict));
    }

    [Theory]
    [InlineData("mode idle")]
    [InlineData("off")]
    public void A_stimulus_that_a_person_broke_off_tells_nothing_of_the_instrument(string ending)
    {
        var timing = Assert.Single(Of($"mode hold direct; stim R 1000; +3000; stim R 400; {ending}"));
        Assert.Equal((1, TimingVerdict.Within), (timing.Dwell!.Count, timing.DwellVerdict));
        // One that the instrument itself cut short does.
        var itself = Assert.Single(Of($"mode hold direct; stim R 1000; +3000; stim R 400; +3000; {ending}"));
        Assert.Equal((2, TimingVerdict.TooShort), (itself.Dwell!.Count, itself.DwellVerdict));
        // And so does a sequence that went on by itself.
        var sequence = Of(
            "mode sequence direct; stim R 1000; +3000; stim R 400; mode sequence short self; +500; mode idle"
        );
        Assert.Equal(TimingVerdict.TooShort, Assert.Single(sequence).DwellVerdict);
    }

    [Fact]
    public void Many_sittings_count_together_and_a_run_like_an_exam()
    {
        var exams = new[] { "open Q-1001", "open Q-1002", "bench timing" }
            .Select(begin => Script.Run($"meet A; {begin}; mode hold long; swings 3000 2 L; mode idle"))
            .SelectMany(folded => folded.Exams.Values.Concat(folded.Runs.Values))
            .ToArray();
        Assert.Equal(3, exams.Length);
        Assert.Equal([6, 6], BlockTiming.Of(exams, Profile.Default).Select(one => one.Dwell!.Count));
    }

    /// <summary>Right 1010 twice, left 1000 twice: 10 ms, and u² = 1/6 + 1/6 ms² from the ticks alone (JCGM 100:2008, 4.3.7).</summary>
    [Fact]
    public void An_eye_that_is_lit_longer_is_told_by_block()
    {
        var run = Script
            .Run(
                "meet A; bench timing; mode hold short; stim R 1010; stim L 1000; stim R 1010; stim L 1000; +500; mode hold long; stim R 3000; +500; mode idle"
            )
            .Run;
        var one = Assert.Single(BlockTiming.Asymmetries([run]));
        Assert.Equal((Block.SwingShort, 10.0), (one.Block, one.Milliseconds));
        Assert.Equal(2 * Math.Sqrt(1.0 / 3), one.ExpandedMilliseconds, 12);
    }

    private static IReadOnlyList<EyeTiming> Of(string script) =>
        BlockTiming.Of([Script.Run($"meet A; bench timing; {script}").Run], Profile.Default);
}
