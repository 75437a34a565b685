namespace PupilBridge.Exams.ExpectedSizes;

/// <summary>
/// What people of one decade of age showed in the dark: Bradley JC, Bentley KC, Mughal AI, Bodhireddy H, Brown SM,
/// "Dark-adapted pupil diameter as a function of age", J Refract Surg 2011;27(3):202-207 (its abstract's numbers; the title
/// from memory). 263 people, right eye, far fixation, 2 minutes at 1 lux: a comparison with anything else is none.
/// </summary>
/// <param name="FromYears">The youngest age of the row, in full years.</param>
/// <param name="ToYears">The oldest age of the row, in full years.</param>
/// <param name="MeanMillimetres">The mean diameter, in mm.</param>
/// <param name="LeastMillimetres">The smallest, in mm.</param>
/// <param name="MostMillimetres">The largest, in mm.</param>
/// <param name="People">How many people; rows of a handful say little.</param>
public sealed record DarkNorm(
    int FromYears,
    int ToYears,
    double MeanMillimetres,
    double LeastMillimetres,
    double MostMillimetres,
    int People
)
{
    /// <summary>How long the people had been in the dark.</summary>
    public static TimeSpan TimeInTheDark { get; } = TimeSpan.FromMinutes(2);

    /// <summary>The light at which they were measured, in lux.</summary>
    public const double RoomLux = 1;

    /// <summary>All rows, the youngest first.</summary>
    public static IReadOnlyList<DarkNorm> All { get; } =
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
    /// <param name="ageYears">Age in years; the full years count.</param>
    /// <returns>The row; null under 18 and from 81 years on, where nobody was measured, and for what is no finite number.</returns>
    public static DarkNorm? Of(double ageYears)
    {
        var fullYears = Math.Floor(ageYears);
        return All.FirstOrDefault(norm => norm.FromYears <= fullYears && fullYears <= norm.ToYears);
    }

    /// <summary>Whether a room's light is the 1 lux at which they were measured, to half a lux (ours).</summary>
    /// <param name="millilux">The sensor's reading; null if there is none.</param>
    /// <returns>True if so.</returns>
    public static bool IsOneLux(long? millilux) => millilux is >= 500 and <= 1_500;
}
