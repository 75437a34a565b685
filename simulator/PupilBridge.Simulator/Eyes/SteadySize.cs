namespace PupilBridge.Simulator.Eyes;

/// <summary>The size that a pupil settles at in a steady light, by the light and the age.</summary>
/// <remarks>
/// Watson AB, Yellott JI. "A unified formula for light-adapted pupil size." Journal of Vision 2012;12(10):12. It holds for
/// ages of 20 to 83 years; for children the paper's appendix gives a form (its equation 28) that it calls more
/// hypothetical. The paper assumes a uniform field whose centre is fixated; arousal and near work are not in it.
/// Logarithms do not occur; the <em>area</em> of the field is meant, not its diameter.
/// </remarks>
public static class SteadySize
{
    /// <summary>The oldest age of the published data, in years; older eyes are taken to be of this age.</summary>
    public const double OldestYears = 83;

    /// <summary>The age at which the form for adults begins, in years.</summary>
    public const double AdultYears = 20;

    private const double ReferenceYears = 28.58;

    /// <summary>The area of a round field.</summary>
    /// <param name="diameterDegrees">Its diameter in degrees, above 0.</param>
    /// <returns>The area in square degrees.</returns>
    public static double DiscAreaSquareDegrees(double diameterDegrees) =>
        Math.PI * diameterDegrees * diameterDegrees / 4;

    /// <summary>The effective corneal flux density F = L·a·M(e), in cd·m⁻²·deg².</summary>
    /// <param name="luminance">Luminance L of the field in cd/m², 0 or more.</param>
    /// <param name="areaSquareDegrees">Area a of the field in deg².</param>
    /// <param name="eyesLit">How many eyes see the field: 1 (M = 0.1) or 2 (M = 1).</param>
    /// <returns>The flux density.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number of eyes is neither 1 nor 2.</exception>
    public static double EffectiveFlux(double luminance, double areaSquareDegrees, int eyesLit) =>
        luminance
        * areaSquareDegrees
        * eyesLit switch
        {
            1 => OneEye,
            2 => 1.0,
            _ => throw new ArgumentOutOfRangeException(nameof(eyesLit), eyesLit, "One or two eyes see the field."),
        };

    /// <summary>M(1): the weight of a field that only one eye sees.</summary>
    internal const double OneEye = 0.1;

    /// <summary>The size without regard to age, in millimetres.</summary>
    /// <remarks>Stanley PA, Davies AK. Ophthalmic Physiol Opt 1995;15(6):601–603, as used in the unified formula.</remarks>
    /// <param name="flux">Effective corneal flux density, 0 or more.</param>
    /// <returns>2 to 7.75 mm.</returns>
    public static double StanleyDaviesMillimetres(double flux)
    {
        var u = Math.Pow(flux / 846, 0.41);
        return 7.75 - (5.75 * u / (u + 2));
    }

    /// <summary>The size by the unified formula, in millimetres.</summary>
    /// <param name="flux">Effective corneal flux density, 0 or more.</param>
    /// <param name="ageYears">Age in years, 1 or more; below 20 the form for children is used, above 83 the age is 83.</param>
    /// <returns>The size in millimetres.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The flux is negative or the age below 1.</exception>
    public static double Millimetres(double flux, double ageYears)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(flux);
        ArgumentOutOfRangeException.ThrowIfLessThan(ageYears, 1);
        if (ageYears < AdultYears)
        {
            return ChildMillimetres(flux, ageYears);
        }

        var ageless = StanleyDaviesMillimetres(flux);
        var years = Math.Min(ageYears, OldestYears) - ReferenceYears;
        return ageless + (years * (0.02132 - (0.009562 * ageless)));
    }

    // Equation 28 of the paper's appendix. The bracket closes after the age: exp(−0.208269·y)·(…), not exp(−0.208269·y·(…)).
    private static double ChildMillimetres(double flux, double ageYears)
    {
        var f = Math.Pow(flux, 0.41);
        var growth = Math.Exp(-0.208269 * ageYears) * (-3.96868 + (0.00521209 * f));
        return (16.4674 + growth + (0.124857 * f)) / (2 + (0.0630635 * f));
    }
}
