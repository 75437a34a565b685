namespace PupilBridge.Exams.Statistics;

/// <summary>Why a statistic cannot be computed from the readings that were given.</summary>
public enum StatisticsFault
{
    /// <summary>There are fewer subjects than the statistic needs.</summary>
    TooFew = 1,

    /// <summary>A reading is no finite number.</summary>
    NotANumber = 2,

    /// <summary>All readings, or all differences, are the same: there is no scatter to speak about.</summary>
    NoVariation = 3,

    /// <summary>The columns differ in length.</summary>
    UnequalLengths = 4,

    /// <summary>There are fewer than two raters.</summary>
    TooFewRaters = 5,

    /// <summary>Readings for a line stand at two places only.</summary>
    TwoPlacesOnly = 6,

    /// <summary>A disc was read so seldom that nothing is known of its scatter.</summary>
    TooFewRepeats = 7,

    /// <summary>A larger disc reads no larger than a smaller one: mixed up?</summary>
    OutOfOrder = 8,

    /// <summary>A disc lies outside of what the scale can show.</summary>
    OutOfRange = 9,
}

/// <summary>A statistic that makes no sense for the readings that were given.</summary>
/// <param name="fault">Why.</param>
/// <param name="message">The same in words.</param>
public sealed class StatisticsRefusedException(StatisticsFault fault, string message) : Exception(message)
{
    /// <summary>Why.</summary>
    public StatisticsFault Fault { get; } = fault;
}
