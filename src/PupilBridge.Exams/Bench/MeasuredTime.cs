using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Steps;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Bench;

/// <summary>A duration that was measured many times, by the instrument's own ticks.</summary>
/// <param name="Count">How often.</param>
/// <param name="MeanMilliseconds">The mean.</param>
/// <param name="JitterMilliseconds">The standard deviation of single ones; not a number for one.</param>
/// <param name="ShortestMilliseconds">The shortest.</param>
/// <param name="LongestMilliseconds">The longest.</param>
public sealed record MeasuredTime(
    int Count,
    double MeanMilliseconds,
    double JitterMilliseconds,
    long ShortestMilliseconds,
    long LongestMilliseconds
)
{
    /// <summary>
    /// The standard uncertainty of one duration that comes from the ticks: each of two ticks may lie anywhere within its millisecond
    /// (JCGM 100:2008, 4.3.7), √(2/12) ms.
    /// </summary>
    public static double OfTicks { get; } = 1 / Math.Sqrt(6);

    /// <summary>
    /// The standard uncertainty of the mean, in ms: the scatter of single ones by their number, and never less than the ticks leave, since
    /// an instrument that times itself by the same ticks rounds alike every time.
    /// </summary>
    public double UncertaintyMilliseconds =>
        Count > 1 ? double.Hypot(JitterMilliseconds / Math.Sqrt(Count), OfTicks) : OfTicks;

    /// <summary>How all of them stand to a range, given that a tick is a whole millisecond; the worst one speaks for all.</summary>
    /// <param name="leastMilliseconds">The shortest that is right, in ms.</param>
    /// <param name="mostMilliseconds">The longest that is right, in ms.</param>
    /// <returns>The verdict; never that it was not judged.</returns>
    public TimingVerdict Against(double leastMilliseconds, double mostMilliseconds)
    {
        var shortest = StimulusTiming.Judge(ShortestMilliseconds, leastMilliseconds, mostMilliseconds);
        var longest = StimulusTiming.Judge(LongestMilliseconds, leastMilliseconds, mostMilliseconds);
        if (shortest is TimingVerdict.TooShort or TimingVerdict.TooLong)
            return shortest;
        return longest is TimingVerdict.Within ? shortest : longest;
    }

    /// <summary>Of durations.</summary>
    /// <param name="milliseconds">The durations.</param>
    /// <returns>The measured time; null without any.</returns>
    public static MeasuredTime? Of(IReadOnlyList<long> milliseconds)
    {
        ArgumentNullException.ThrowIfNull(milliseconds);
        if (milliseconds.Count == 0)
            return null;
        var sample = Sample.Of([.. milliseconds.Select(ms => (double)ms)]);
        return new(sample.Count, sample.Mean, sample.StandardDeviation, milliseconds.Min(), milliseconds.Max());
    }
}
