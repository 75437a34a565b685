namespace PupilBridge.Exams.Calibration;

/// <summary>
/// An offset that all corrections of a calibration share and that no repeat reveals, as the reference that all discs were
/// certified against (JCGM 100:2008, H.3.6). It makes the intercept less certain and leaves the slope alone.
/// </summary>
/// <param name="StandardUncertainty">Its standard uncertainty, in the unit of y, 0 or more.</param>
/// <param name="DegreesOfFreedom">
/// How well that uncertainty itself is known: infinite where a certificate states it as known.
/// </param>
public readonly record struct CommonOffset(
    double StandardUncertainty,
    double DegreesOfFreedom = double.PositiveInfinity
)
{
    /// <summary>No common offset.</summary>
    public static CommonOffset None { get; } = new(0);
}
