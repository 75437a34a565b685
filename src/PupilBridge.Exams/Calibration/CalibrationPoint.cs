namespace PupilBridge.Exams.Calibration;

/// <summary>One reading of a calibration.</summary>
/// <param name="X">What the instrument showed; for discs the indicated diameter, in mm.</param>
/// <param name="Y">What belongs to it; for discs the correction, certified minus indicated diameter, in mm.</param>
public readonly record struct CalibrationPoint(double X, double Y);
