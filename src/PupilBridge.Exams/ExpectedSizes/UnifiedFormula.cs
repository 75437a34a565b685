namespace PupilBridge.Exams.ExpectedSizes;

/// <summary>
/// The size of a pupil that age and light alone explain: Watson AB, Yellott JI, "A unified formula for light-adapted pupil
/// size", Journal of Vision 2012;12(10):12. It is the middle of many people; one healthy person can differ from it by a
/// good deal. It assumes that the person looks, far away, at the centre of an even field. Context, never a pass or fail.
/// </summary>
public static class UnifiedFormula
{
    /// <summary>The youngest age that the extension for children covers, in years.</summary>
    public const double YoungestYears = 1;

    /// <summary>The age from which the formula proper holds; below, its more hypothetical extension for children.</summary>
    public const double AdultFromYears = 20;

    /// <summary>The oldest age of the people behind the formula, in years.</summary>
    public const double OldestYears = 83;

    private const double ReferenceAgeYears = 28.58;

    /// <summary>The size that light alone explains, at the reference age (Stanley &amp; Davies 1995).</summary>
    /// <param name="effectiveFlux">Effective corneal flux density, in cd·m⁻²·deg², 0 or more.</param>
    /// <returns>The diameter, in mm.</returns>
    public static double AtReferenceAge(double effectiveFlux)
    {
        var u = Math.Pow(effectiveFlux / 846, 0.41);
        return 7.75 - (5.75 * u / (u + 2));
    }

    /// <summary>The formula proper, for adults.</summary>
    /// <param name="effectiveFlux">Effective corneal flux density, in cd·m⁻²·deg², 0 or more.</param>
    /// <param name="ageYears">Age in years, <see cref="AdultFromYears"/> to <see cref="OldestYears"/>.</param>
    /// <returns>The diameter, in mm.</returns>
    public static double Adult(double effectiveFlux, double ageYears)
    {
        var atReference = AtReferenceAge(effectiveFlux);
        return atReference + ((ageYears - ReferenceAgeYears) * (0.02132 - (0.009562 * atReference)));
    }

    /// <summary>
    /// The paper's extension to children (its Appendix 2, equation 28), which its authors call more hypothetical. The
    /// exponential holds age alone: with the bracket around the whole product, a child of five would have a pupil of 20 mm.
    /// </summary>
    /// <param name="effectiveFlux">Effective corneal flux density, in cd·m⁻²·deg², 0 or more.</param>
    /// <param name="ageYears">Age in years, <see cref="YoungestYears"/> to <see cref="AdultFromYears"/>.</param>
    /// <returns>The diameter, in mm.</returns>
    public static double Child(double effectiveFlux, double ageYears)
    {
        var f = Math.Pow(effectiveFlux, 0.41);
        var growing = Math.Exp(-0.208269 * ageYears) * (-3.96868 + (0.00521209 * f));
        return (16.4674 + growing + (0.124857 * f)) / (2 + (0.0630635 * f));
    }

    /// <summary>The expected size, by whichever form the age asks for.</summary>
    /// <param name="field">The light.</param>
    /// <param name="ageYears">Age in years.</param>
    /// <returns>Size, form and cautions.</returns>
    /// <exception cref="ArgumentException">
    /// The formula does not cover this; <see cref="ExpectedSizeLimits.Faults"/> says why. Nothing is clamped in silence.
    /// </exception>
    public static ExpectedSize Expect(AdaptingField field, double ageYears)
    {
        var faults = ExpectedSizeLimits.Faults(field, ageYears);
        if (faults.Count > 0)
            throw new ArgumentException($"The formula does not cover this: {string.Join(", ", faults)}.");
        var isAdult = ageYears >= AdultFromYears;
        var flux = field.EffectiveFlux;
        return new(
            isAdult ? Adult(flux, ageYears) : Child(flux, ageYears),
            isAdult ? ExpectedSizeForm.Adult : ExpectedSizeForm.Child,
            ExpectedSizeLimits.Cautions(field, ageYears)
        );
    }
}
