namespace PupilBridge.Exams.Statistics;

/// <summary>
/// How the variation of grouped readings divides into that within groups and that between them (JCGM 100:2008, H.5): the
/// readings of a disc, of a day, of a person's visit.
/// </summary>
/// <param name="Groups">How many groups, J.</param>
/// <param name="Count">How many readings in all.</param>
/// <param name="Mean">The mean of all readings.</param>
/// <param name="Within">Sum of squares within groups.</param>
/// <param name="Between">Sum of squares between groups.</param>
/// <param name="ReadingsPerGroup">How many readings a group has; for unequal groups the number that takes its place.</param>
public sealed record OneWayVariance(
    int Groups,
    int Count,
    double Mean,
    double Within,
    double Between,
    double ReadingsPerGroup
)
{
    /// <summary>Degrees of freedom within groups.</summary>
    public int DegreesWithin => Count - Groups;

    /// <summary>Degrees of freedom between groups.</summary>
    public int DegreesBetween => Groups - 1;

    /// <summary>Repeatability: the standard deviation of readings within a group, pooled over all.</summary>
    public double WithinDeviation => Math.Sqrt(Within / DegreesWithin);

    /// <summary>The standard deviation that the spread of the group means gives for one reading.</summary>
    public double BetweenEstimate => Math.Sqrt(Between / DegreesBetween);

    /// <summary>The ratio of the two variances; near 1 where groups do not differ.</summary>
    public double F => Between / DegreesBetween / (Within / DegreesWithin);

    /// <summary>The probability that chance alone gives an F as large.</summary>
    public double ChanceOfF => Quantiles.ChanceOfF(DegreesBetween, DegreesWithin, F);

    /// <summary>The standard deviation between groups alone; 0 where the groups differ no more than their readings do.</summary>
    public double BetweenDeviation =>
        Math.Sqrt(Math.Max(0, ((Between / DegreesBetween) - (Within / DegreesWithin)) / ReadingsPerGroup));

    /// <summary>Divides the variation of groups.</summary>
    /// <param name="groups">Two groups or more, of which one has more than one reading.</param>
    /// <returns>The sums of squares.</returns>
    /// <exception cref="StatisticsRefusedException">There are too few groups or readings.</exception>
    public static OneWayVariance Of(IReadOnlyList<Sample> groups)
    {
        ArgumentNullException.ThrowIfNull(groups);
        var count = groups.Sum(group => group.Count);
        if (groups.Count < 2 || count <= groups.Count)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                $"At least two groups with repeats are needed; there are {groups.Count} with {count} readings in all."
            );
        }

        var first = groups[0].Mean;
        var mean = first + (groups.Sum(group => group.Count * (group.Mean - first)) / count);
        return new(
            groups.Count,
            count,
            mean,
            groups.Sum(group => group.SumOfSquares),
            groups.Sum(group => group.Count * (group.Mean - mean) * (group.Mean - mean)),
            (count - (groups.Sum(group => (double)group.Count * group.Count) / count)) / (groups.Count - 1)
        );
    }
}
