namespace PupilBridge.Exams.Bench;

/// <summary>One point of a scale's history.</summary>
/// <param name="Day">When it was found.</param>
/// <param name="Value">Its offset at the middle of the range in mm, or its slope.</param>
/// <param name="IsQuickCheck">Whether it comes from a quick check with one disc, and not from a calibration.</param>
public readonly record struct DriftPoint(DateOnly Day, double Value, bool IsQuickCheck);

/// <summary>How the last point of a history stands.</summary>
public enum DriftState
{
    /// <summary>Too few points to know what is usual.</summary>
    TooFewPoints = 1,

    /// <summary>As usual.</summary>
    AsUsual = 2,

    /// <summary>Outside of what is usual, or on its way to the limit.</summary>
    Warning = 3,

    /// <summary>Beyond the limit.</summary>
    BeyondLimit = 4,
}

/// <summary>
/// A chart of single values with control limits: their mean, and three standard deviations to either side, the deviation being the mean
/// distance of neighbours divided by 1.128 (chart of individuals and moving ranges, NIST/SEMATECH e-Handbook of Statistical Methods,
/// 6.3.2.2; from memory). The mean of neighbours' distances is blind to a slow drift, which is what it is to show.
/// </summary>
/// <param name="Centre">The mean of the first points.</param>
/// <param name="HalfWidth">Three standard deviations.</param>
public sealed record DriftChart(double Centre, double HalfWidth)
{
    /// <summary>So many first points say what is usual. Common practice asks for twenty or more; a clinic has fewer. Ours: 8.</summary>
    public const int FirstPoints = 8;

    /// <summary>The mean distance of two neighbours is so many standard deviations (d2 for two values).</summary>
    private const double DistanceOfTwo = 1.128;

    /// <summary>The chart of a history.</summary>
    /// <param name="points">Its points, in the order of their days.</param>
    /// <returns>The chart; null with fewer than <see cref="FirstPoints"/>.</returns>
    public static DriftChart? Of(IReadOnlyList<DriftPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count < FirstPoints)
            return null;
        var first = points.Take(FirstPoints).Select(point => point.Value).ToArray();
        var distance = first.Zip(first.Skip(1), (one, next) => Math.Abs(next - one)).Average();
        return new(first.Average(), 3 * distance / DistanceOfTwo);
    }

    /// <summary>How the last point stands.</summary>
    /// <param name="points">The history, in the order of its days.</param>
    /// <param name="limit">The largest value allowed to either side, more than 0.</param>
    /// <param name="horizonDays">It warns if the limit is reached within so many days after the last point.</param>
    /// <returns>The state.</returns>
    public static DriftState StateOf(IReadOnlyList<DriftPoint> points, double limit, int horizonDays)
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(limit);
        if (points.Count > 0 && Math.Abs(points[^1].Value) > limit)
            return DriftState.BeyondLimit;
        if (Of(points) is not { } chart)
            return DriftState.TooFewPoints;
        var isOutside = Math.Abs(points[^1].Value - chart.Centre) > chart.HalfWidth;
        return isOutside || DriftForecast.Reaches(points, limit, horizonDays) ? DriftState.Warning : DriftState.AsUsual;
    }
}
