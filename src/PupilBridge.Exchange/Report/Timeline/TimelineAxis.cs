namespace PupilBridge.Exchange.Report.Timeline;

/// <summary>
/// Where a moment of an exam stands on the axis. A stretch of more than <see cref="LongestSilenceMilliseconds"/> in which nothing
/// happened is drawn as if it had taken <see cref="BreakMilliseconds"/>, and marked, so that stimuli of a second stay visible in an exam
/// of an hour. Everything else is to one scale.
/// </summary>
internal sealed class TimelineAxis
{
    /// <summary>The longest silence that is drawn to scale, in ms.</summary>
    public const long LongestSilenceMilliseconds = 30_000;

    /// <summary>The width of a longer one, in ms of the scale.</summary>
    public const long BreakMilliseconds = 6_000;

    private const long MarginMilliseconds = 2_000;
    private static readonly long[] Steps =
    [
        5_000,
        10_000,
        15_000,
        30_000,
        60_000,
        120_000,
        300_000,
        600_000,
        1_800_000,
    ];

    private readonly List<(long From, long To, long At)> stretches = [];
    private readonly long width;

    private TimelineAxis(IEnumerable<(long From, long To)> busy)
    {
        long? end = null;
        foreach (var (from, to) in busy.OrderBy(b => b.From))
        {
            if (end is not { } last)
                stretches.Add((from - MarginMilliseconds, to, 0));
            else if (from - last > LongestSilenceMilliseconds)
            {
                Close(last + MarginMilliseconds);
                stretches.Add((from - MarginMilliseconds, to, WidthSoFar() + BreakMilliseconds));
            }

            end = Math.Max(end ?? to, to);
        }

        Close((end ?? 0) + MarginMilliseconds);
        width = WidthSoFar();
    }

    /// <summary>Where the axis is broken, as shares of its width: the middles of the breaks.</summary>
    public IEnumerable<double> Breaks => stretches.Skip(1).Select(s => (s.At - (BreakMilliseconds / 2.0)) / width);

    /// <summary>The axis for a timeline that shows something.</summary>
    /// <param name="timeline">The timeline.</param>
    public static TimelineAxis Of(ExamTimeline timeline) =>
        new(
            timeline
                .Trains.SelectMany(t => t.Bars)
                .Select(bar => (bar.OnMilliseconds, bar.OnMilliseconds + (bar.ForMilliseconds ?? 0)))
                .Concat(timeline.Captures.Select(c => (c.AtMilliseconds, c.AtMilliseconds)))
        );

    /// <summary>Where a moment stands, as a share of the width.</summary>
    /// <param name="milliseconds">The moment.</param>
    public double Place(long milliseconds)
    {
        var stretch = stretches.LastOrDefault(s => s.From <= milliseconds, stretches[0]);
        return Math.Clamp((stretch.At + Math.Min(milliseconds, stretch.To) - stretch.From) / (double)width, 0, 1);
    }

    /// <summary>Round moments to be written below the axis.</summary>
    /// <param name="most">How many fit.</param>
    public IReadOnlyList<long> Ticks(int most)
    {
        foreach (var step in Steps)
        {
            var ticks = stretches
                .SelectMany(s =>
                {
                    var first = (long)Math.Ceiling(s.From / (double)step) * step;
                    return Enumerable
                        .Range(0, (int)Math.Max(0, ((s.To - first) / step) + 1))
                        .Select(n => first + (n * step));
                })
                .ToArray();
            if (ticks.Length <= most)
                return ticks;
        }

        return [];
    }

    private void Close(long end)
    {
        if (stretches.Count > 0)
            stretches[^1] = stretches[^1] with { To = end };
        else
            stretches.Add((-MarginMilliseconds, end, 0));
    }

    private long WidthSoFar() => stretches[^1].At + stretches[^1].To - stretches[^1].From;
}
