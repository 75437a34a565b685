namespace PupilBridge.Cohort.Population;

/// <summary>
/// How often each sign is drawn. The clinic is enriched: signs are far more frequent than among people, so that each criterion
/// sees enough of both; sensitivity and specificity do not depend on how frequent a sign is, though on how marked it is. All
/// numbers are ours, but for the simple anisocoria.
/// </summary>
public sealed record Prevalences
{
    /// <summary>
    /// Standard deviation of everyone's simple size difference, in mm: 0.305, at which 19 % have 0.4 mm or more, as at any one
    /// examination of 128 people (Lam BL, Thompson HS, Corbett JJ, Am J Ophthalmol 1987;104(1):69-73, abstract). That it is
    /// normally distributed is ours.
    /// </summary>
    public double SimpleDifferenceMillimetres { get; init; } = 0.305;

    /// <summary>
    /// Standard deviation of a size between people, in mm: 0.65, from the range of 5.7 to 8.8 mm of 66 people of 20 to 29 years
    /// (Bradley JC et al., J Refract Surg 2011;27(3):202-207), taken as 4.7 standard deviations (the mean range of 66 normal draws,
    /// from memory).
    /// </summary>
    public double SizeMillimetres { get; init; } = 0.65;

    /// <summary>
    /// Standard deviation of one pupil's change between two days, in mm: 0.194, computed from a published interval ("Day to day
    /// variability of the dark-adapted pupil diameter", abstract: 40 people, mean 0.032 mm, 95 % -0.030 to 0.094).
    /// </summary>
    public double DayToDayMillimetres { get; init; } = 0.194;

    /// <summary>Part of that scatter's variance that both pupils share. Ours.</summary>
    public double DayToDayShared { get; init; } = 0.8;

    /// <summary>Marked simple anisocoria of 0.6 to 1.8 mm.</summary>
    public double MarkedDifference { get; init; } = 0.08;

    /// <summary>A sympathetic defect of one eye: small in dim light, slow to widen.</summary>
    public double Sympathetic { get; init; } = 0.10;

    /// <summary>A partial parasympathetic defect of one eye.</summary>
    public double Parasympathetic { get; init; } = 0.08;

    /// <summary>One pupil that neither light nor near moves; half of them with an afferent loss of either eye.</summary>
    public double FixedPupil { get; init; } = 0.08;

    /// <summary>An afferent loss of one eye of 0.3 to 3 log units.</summary>
    public double Afferent { get; init; } = 0.13;

    /// <summary>An eye that light as good as never reaches the midbrain from.</summary>
    public double Blind { get; init; } = 0.05;

    /// <summary>A loss alike in both eyes.</summary>
    public double AfferentBoth { get; init; } = 0.05;

    /// <summary>Light hardly moves the pupil, near does; one eye or both.</summary>
    public double LightNearDissociation { get; init; } = 0.06;

    /// <summary>Both pupils very small.</summary>
    public double SmallBoth { get; init; } = 0.04;

    /// <summary>Both pupils wide, hardly moved by light.</summary>
    public double WideBoth { get; init; } = 0.05;

    /// <summary>One pupil not round, whatever else.</summary>
    public double NotRound { get; init; } = 0.08;

    /// <summary>Drops in one eye: wide and fixed.</summary>
    public double Drops { get; init; } = 0.05;

    /// <summary>An operation or injury of one eye.</summary>
    public double Surgery { get; init; } = 0.03;

    /// <summary>The room swapped at the sizes.</summary>
    public double LightsSwapped { get; init; } = 0.04;

    /// <summary>Near fixation somewhere.</summary>
    public double NearSlip { get; init; } = 0.08;

    /// <summary>A lamp that burns too short or too long.</summary>
    public double TimingFault { get; init; } = 0.10;

    /// <summary>An earlier visit.</summary>
    public double EarlierVisit { get; init; } = 0.45;

    /// <summary>Among those, a true change of 0.3 to 2 mm in one eye or both.</summary>
    public double Changed { get; init; } = 0.35;

    /// <summary>Among those, another bright room then.</summary>
    public double OtherRoomBefore { get; init; } = 0.1;
}
