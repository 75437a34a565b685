using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;

namespace PupilBridge.Exams.Tests.Bench;

/// <summary>A duration measured many times, by ticks of a millisecond.</summary>
public sealed class MeasuredTimeTests
{
    /// <summary>990, 1000, 1010: mean 1000, deviation 10; the ticks leave √(1/6) ms whatever the number of durations.</summary>
    [Fact]
    public void Mean_jitter_and_what_the_ticks_leave()
    {
        var time = MeasuredTime.Of([990, 1000, 1010])!;
        Assert.Equal(1000, time.MeanMilliseconds, 12);
        Assert.Equal(10, time.JitterMilliseconds, 12);
        Assert.Equal(Math.Sqrt((100.0 / 3) + (1.0 / 6)), time.UncertaintyMilliseconds, 12);
        Assert.Equal(Math.Sqrt(1.0 / 6), MeasuredTime.Of([1000, 1000])!.UncertaintyMilliseconds, 12);
        Assert.Equal(Math.Sqrt(1.0 / 6), MeasuredTime.Of([1000])!.UncertaintyMilliseconds, 12);
        Assert.Null(MeasuredTime.Of([]));
    }

    [Theory]
    [InlineData(new long[] { 902, 1000, 1098 }, TimingVerdict.Within)]
    [InlineData(new long[] { 1000, 1100 }, TimingVerdict.CannotTell)]
    [InlineData(new long[] { 900, 1000 }, TimingVerdict.CannotTell)]
    [InlineData(new long[] { 1000, 1102 }, TimingVerdict.TooLong)]
    [InlineData(new long[] { 898, 1000 }, TimingVerdict.TooShort)]
    [InlineData(new long[] { 898, 1102 }, TimingVerdict.TooShort)]
    [InlineData(new long[] { 900, 1102 }, TimingVerdict.TooLong)]
    [InlineData(new long[] { 1200, 1210 }, TimingVerdict.TooLong)]
    public void The_worst_one_speaks_for_all(long[] milliseconds, TimingVerdict verdict) =>
        Assert.Equal(verdict, MeasuredTime.Of(milliseconds)!.Against(900, 1100));
}
