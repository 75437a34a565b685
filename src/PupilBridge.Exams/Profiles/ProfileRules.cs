using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Profiles;

/// <summary>What makes two positions a diameter.</summary>
public sealed record CaptureRules
{
    /// <summary>The longest time between the two edges of a pair, in milliseconds of the instrument's tick. Ours: 30 s.</summary>
    public required int PairWithinMilliseconds { get; init; }

    /// <summary>The smallest difference of two positions that is taken for a pupil. Ours: 0.5 mm.</summary>
    public required Micrometres SmallestDiameter { get; init; }

    /// <summary>The largest difference of two positions that is taken for a pupil. Ours: 12 mm.</summary>
    public required Micrometres LargestDiameter { get; init; }

    /// <summary>
    /// How well a person sets the two edges of a living pupil again: the standard uncertainty of one diameter from it.
    /// The default, 0.10 mm, is an assumption, not a measurement: replace it by what repeated settings on people show.
    /// </summary>
    public required Micrometres SettingRepeatability { get; init; }

    /// <summary>Whether that number was found by repeated settings, or is an assumption.</summary>
    public required bool SettingRepeatabilityIsMeasured { get; init; }

    /// <summary>The rules that ship with the program.</summary>
    public static CaptureRules Default { get; } =
        new()
        {
            PairWithinMilliseconds = 30_000,
            SmallestDiameter = new(500),
            LargestDiameter = new(12_000),
            SettingRepeatability = new(100),
            SettingRepeatabilityIsMeasured = false,
        };
}

/// <summary>What counts as bright, dim and settled. All defaults are ours.</summary>
public sealed record LightRules
{
    /// <summary>A room of at most this many millilux is dim. Ours: 30 lx.</summary>
    public required long DimAtMostMillilux { get; init; }

    /// <summary>A room of at least this many millilux is bright; in between it is neither. Ours: 100 lx.</summary>
    public required long BrightAtLeastMillilux { get; init; }

    /// <summary>After this time in the dark a pupil is taken as settled, in milliseconds. Ours: 20 s.</summary>
    public required int DarkSettledAfterMilliseconds { get; init; }

    /// <summary>
    /// Two eyes' times in the dark are alike if they differ by at most this much, in milliseconds. Ours: 5 s.
    /// </summary>
    public required int DarkTimesAlikeWithinMilliseconds { get; init; }

    /// <summary>The rules that ship with the program.</summary>
    public static LightRules Default { get; } =
        new()
        {
            DimAtMostMillilux = 30_000,
            BrightAtLeastMillilux = 100_000,
            DarkSettledAfterMilliseconds = 20_000,
            DarkTimesAlikeWithinMilliseconds = 5_000,
        };
}

/// <summary>What closes an exam. All defaults are ours.</summary>
public sealed record ClosingRules
{
    /// <summary>An exam in which nothing happened for this long is over, in milliseconds. Ours: 10 minutes.</summary>
    public required int SilenceMilliseconds { get; init; }

    /// <summary>
    /// A stop of the dial that was left within this time without anything happening there was merely passed, in
    /// milliseconds. Ours: 2 s.
    /// </summary>
    public required int PassedStopMilliseconds { get; init; }

    /// <summary>The rules that ship with the program.</summary>
    public static ClosingRules Default { get; } =
        new() { SilenceMilliseconds = 600_000, PassedStopMilliseconds = 2_000 };
}

/// <summary>What the chart text may claim.</summary>
public sealed record ChartRules
{
    /// <summary>
    /// The letter E is claimed only if the sizes in both lights surely differ by at most this much. Default 0.4 mm: the
    /// descriptive convention of Lam BL, Thompson HS, Corbett JJ, Am J Ophthalmol 1987;104(1):69–73. A clinical
    /// convention of 1.0 mm is in use as well; neither is a diagnosis.
    /// </summary>
    public required Micrometres EqualWithin { get; init; }

    /// <summary>The letters RL are claimed only if both direct responses reach this grade. Ours: 2.</summary>
    public required Grade MinimumDirectGrade { get; init; }

    /// <summary>The letter A is claimed only if the near response of both eyes reaches this grade. Ours: 1.</summary>
    public required Grade MinimumNearGrade { get; init; }

    /// <summary>
    /// A direct response of at most this grade in either eye makes the near response due in both eyes. Default 1.
    /// </summary>
    public required Grade NearDueAtMost { get; init; }

    /// <summary>The rules that ship with the program.</summary>
    public static ChartRules Default { get; } =
        new()
        {
            EqualWithin = new(400),
            MinimumDirectGrade = Grade.Of(2),
            MinimumNearGrade = Grade.Of(1),
            NearDueAtMost = Grade.Of(1),
        };
}
