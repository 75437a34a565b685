namespace PupilBridge.Exams.Calibration;

/// <summary>How far a scale's true correction may lie off the fitted line between the discs.</summary>
/// <param name="StandardUncertainty">As a standard uncertainty, in mm, 0 or more.</param>
/// <param name="IsFromReadings">
/// Whether the discs' means lay farther off the line than all that was known explains, so that it was found from them; otherwise it was
/// stated beforehand, from the scale's construction.
/// </param>
public readonly record struct Straightness(double StandardUncertainty, bool IsFromReadings);
