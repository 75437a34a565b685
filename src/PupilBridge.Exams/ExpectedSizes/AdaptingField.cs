namespace PupilBridge.Exams.ExpectedSizes;

/// <summary>
/// The light that a person's eyes are adapted to. Lux alone does not give it: what counts is how bright the field looks
/// and how much of the view it fills.
/// </summary>
/// <param name="LuminanceCandelasPerSquareMetre">How bright the field is, in cd/m², more than 0.</param>
/// <param name="AreaSquareDegrees">
/// How much of the view it fills, in square degrees, more than 0. An area, not the field's width: see <see cref="DiscArea"/>.
/// </param>
/// <param name="EyesThatSeeIt">How many eyes see the field: 1 or 2.</param>
public readonly record struct AdaptingField(
    double LuminanceCandelasPerSquareMetre,
    double AreaSquareDegrees,
    int EyesThatSeeIt
)
{
    /// <summary>The area of everything there is to see in all directions, in square degrees: 4π·(180/π)².</summary>
    public const double WholeSphereSquareDegrees = 4 * 180 * 180 / Math.PI;

    /// <summary>The area of a round field.</summary>
    /// <param name="acrossDegrees">How wide the disc looks, in degrees.</param>
    /// <returns>π·(across/2)², in square degrees.</returns>
    public static double DiscArea(double acrossDegrees) => Math.PI * acrossDegrees * acrossDegrees / 4;

    /// <summary>How wide a disc of the same area looks, in degrees.</summary>
    public double AcrossAsDiscDegrees => 2 * Math.Sqrt(AreaSquareDegrees / Math.PI);

    /// <summary>
    /// The effective corneal flux density, in cd·m⁻²·deg²: luminance times area, and a tenth of it where one eye alone sees
    /// the field (Watson &amp; Yellott 2012).
    /// </summary>
    public double EffectiveFlux => LuminanceCandelasPerSquareMetre * AreaSquareDegrees * (EyesThatSeeIt == 1 ? 0.1 : 1);
}
