namespace PupilBridge.Exams.Statistics.Agreement;

/// <summary>Two readings of each subject, checked.</summary>
public sealed class PairedReadings
{
    private PairedReadings(IReadOnlyList<double> one, IReadOnlyList<double> other, IReadOnlyList<double> differences)
    {
        One = one;
        Other = other;
        Differences = differences;
    }

    /// <summary>The first reading of each subject.</summary>
    public IReadOnlyList<double> One { get; }

    /// <summary>The second reading of each subject, in the same order.</summary>
    public IReadOnlyList<double> Other { get; }

    /// <summary>First minus second.</summary>
    public IReadOnlyList<double> Differences { get; }

    /// <summary>How many subjects.</summary>
    public int Count => One.Count;

    /// <summary>The largest amount among the readings; below a 1e-12th of it, a scatter is rounding.</summary>
    internal double RoundingLevel => One.Concat(Other).Max(Math.Abs) * 1e-12;

    /// <summary>Takes two columns of readings.</summary>
    /// <param name="one">First readings, finite numbers.</param>
    /// <param name="other">Second readings, as many.</param>
    /// <param name="least">How many subjects are needed.</param>
    /// <returns>The pairs.</returns>
    /// <exception cref="StatisticsRefusedException">Too few, unequal lengths, or something that is no number.</exception>
    public static PairedReadings Of(IReadOnlyList<double> one, IReadOnlyList<double> other, int least = 2)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        if (one.Count != other.Count)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.UnequalLengths,
                $"There are {one.Count} first and {other.Count} second readings; every subject needs both."
            );
        }

        if (one.Count < least)
        {
            throw new StatisticsRefusedException(
                StatisticsFault.TooFew,
                $"At least {least} subjects are needed, there are {one.Count}."
            );
        }

        if (!one.Concat(other).All(double.IsFinite))
            throw new StatisticsRefusedException(StatisticsFault.NotANumber, "A reading is no finite number.");
        return new([.. one], [.. other], [.. one.Zip(other, (first, second) => first - second)]);
    }
}
