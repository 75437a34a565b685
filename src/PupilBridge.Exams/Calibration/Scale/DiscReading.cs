using PupilBridge.Exams.Calibration.Discs;

namespace PupilBridge.Exams.Calibration.Scale;

/// <summary>One reading of one disc by one scale.</summary>
/// <param name="Disc">The disc.</param>
/// <param name="IndicatedMillimetres">The difference of the two positions as the scale gave them, in mm.</param>
public readonly record struct DiscReading(Disc Disc, double IndicatedMillimetres);
