using PupilBridge.Instrument;

namespace PupilBridge.Exams.Calibration.Scale;

/// <summary>What is known of a scale and of the discs before anything is read.</summary>
/// <param name="Resolution">The step of the scale.</param>
/// <param name="StraightnessMillimetres">
/// How far the scale's true correction may lie off a straight line, as a standard uncertainty in mm, from its construction; 0 where
/// nothing is known. What the readings then show beyond it is told.
/// </param>
/// <param name="Common">What all discs share.</param>
public readonly record struct KnownBefore(Micrometres Resolution, double StraightnessMillimetres, CommonOffset Common);
