namespace PupilBridge.Exams.ExpectedSizes;

/// <summary>
/// The mean pupil of children and adolescents in dim light: MacLachlan C, Howland HC, "Normal values and standard deviations
/// for pupil diameter and interpupillary distance in subjects aged 1 month to 19 years", Ophthal Physiol Opt
/// 2002;22(3):175-182. 1311 people, photographed at 15.9 ± 0.5 lux. The spread at each age stands in the paper and was
/// not at hand.
/// </summary>
public static class ChildNorm
{
    /// <summary>The light at which they were photographed, in lux.</summary>
    public const double RoomLux = 15.9;

    /// <summary>The youngest age, in years: one month.</summary>
    public const double YoungestYears = 1.0 / 12;

    /// <summary>The oldest age, in years.</summary>
    public const double OldestYears = 19;

    /// <summary>
    /// The mean of boys. The abstract as stored lost a decimal point before "0053"; −0.0053 alone gives sizes that a child
    /// can have.
    /// </summary>
    /// <param name="ageYears">Age in years.</param>
    /// <returns>The diameter, in mm; null outside the ages that were measured.</returns>
    public static double? Male(double ageYears) => Curve(ageYears, 5.83, 0.181, -0.0053);

    /// <summary>The mean of girls.</summary>
    /// <param name="ageYears">Age in years.</param>
    /// <returns>The diameter, in mm; null outside the ages that were measured.</returns>
    public static double? Female(double ageYears) => Curve(ageYears, 5.40, 0.285, -0.0109);

    private static double? Curve(double ageYears, double start, double perYear, double perSquare) =>
        ageYears is >= YoungestYears and <= OldestYears
            ? start + (perYear * ageYears) + (perSquare * ageYears * ageYears)
            : null;
}
