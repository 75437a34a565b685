using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Bench;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench;

/// <summary>How an exam's stimuli were timed.</summary>
public sealed class StimulusTimesTests
{
    private static readonly StimulusTimes Times = StimulusTimes.Of(
        Script
            .Run(
                "meet A; bright; open Q-1001; mode hold direct; stim R 1000; +3000; mode hold short; "
                    + "stim R 1000; +5; stim L 1010; +9; stim R 1000; +7; stim L 1012; +500; lamp R on"
            )
            .Exam.Stimuli,
        Block.SwingShort
    );

    [Fact]
    public void Dwell_and_dark_time_are_those_of_each_eye_in_that_block()
    {
        Assert.Equal((2, 1000.0), (Times.Dwell.Right!.Count, Times.Dwell.Right.MeanMilliseconds));
        Assert.Equal((2, 1011.0), (Times.Dwell.Left!.Count, Times.Dwell.Left.MeanMilliseconds));
        Assert.Equal((1, 9.0), (Times.GapBefore.Right!.Count, Times.GapBefore.Right.MeanMilliseconds));
        Assert.Equal((2, 6.0), (Times.GapBefore.Left!.Count, Times.GapBefore.Left.MeanMilliseconds));
    }

    /// <summary>Left 1010 and 1012: deviation √2, of the mean 1; right without scatter; the ticks leave 1/6 ms² to each.</summary>
    [Fact]
    public void An_eye_that_is_lit_longer_is_told_with_its_uncertainty()
    {
        var (longer, expanded) = Times.Asymmetry!.Value;
        Assert.Equal(-11, longer, 12);
        Assert.Equal(2 * Math.Sqrt(1 + (1.0 / 6) + (1.0 / 6)), expanded, 12);
    }

    [Fact]
    public void An_eye_that_was_never_lit_has_no_asymmetry() =>
        Assert.Null(
            StimulusTimes
                .Of(Script.Run("meet A; bright; open Q-1001; mode hold direct; stim R 1000").Exam.Stimuli, Block.Direct)
                .Asymmetry
        );
}
