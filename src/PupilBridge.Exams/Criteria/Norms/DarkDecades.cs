using System.Collections.Immutable;

namespace PupilBridge.Exams.Criteria.Norms;

/// <summary>One row of the table.</summary>
/// <param name="FromYears">The youngest age.</param>
/// <param name="ToYears">The oldest age, in completed years.</param>
/// <param name="MeanMillimetres">The mean diameter.</param>
/// <param name="SmallestMillimetres">The smallest of the people in it.</param>
/// <param name="LargestMillimetres">The largest.</param>
/// <param name="People">How many people.</param>
public sealed record DarkDecade(
    int FromYears,
    int ToYears,
    double MeanMillimetres,
    double SmallestMillimetres,
    double LargestMillimetres,
    int People
);

/// <summary>
/// Dark-adapted sizes by decade: Bradley JC, Bentley KC, Mughal AI, Bodhireddy H, Brown SM, J Refract Surg 2011;27(3):202-207
/// (abstract). 263 people, 2 min at 1 lux, right eye, distance fixation: they hold under these conditions and no others.
/// </summary>
public static class DarkDecades
{
    /// <summary>How long they had been in the dark, in ms.</summary>
    public const int DarkMilliseconds = 120_000;

    /// <summary>The rows.</summary>
    public static ImmutableArray<DarkDecade> All { get; } =
    [
        new(18, 19, 6.85, 5.6, 7.5, 6),
        new(20, 29, 7.33, 5.7, 8.8, 66),
        new(30, 39, 6.64, 5.3, 8.7, 50),
        new(40, 49, 6.15, 4.5, 8.2, 51),
        new(50, 59, 5.77, 4.4, 7.2, 50),
        new(60, 69, 5.58, 3.5, 7.5, 30),
        new(70, 79, 5.17, 4.6, 6.0, 6),
        new(80, 80, 4.85, 4.1, 5.3, 4),
    ];

    /// <summary>The row of an age.</summary>
    /// <param name="ageYears">Age in years.</param>
    /// <returns>The row; null where the table has none.</returns>
    public static DarkDecade? Of(double ageYears) =>
        double.IsFinite(ageYears)
            ? All.FirstOrDefault(row => Math.Floor(ageYears) >= row.FromYears && Math.Floor(ageYears) <= row.ToYears)
            : null;

    /// <summary>Whether a room's light is 1 lux, to half a lux (ours).</summary>
    /// <param name="millilux">The sensor's reading; null if there is none.</param>
    /// <returns>True if so.</returns>
    public static bool IsOneLux(long? millilux) => millilux is >= 500 and <= 1_500;
}
