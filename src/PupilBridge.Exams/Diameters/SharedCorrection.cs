using PupilBridge.Exams.Calibration;

namespace PupilBridge.Exams.Diameters;

/// <summary>What a diameter's error can have in common with another's: the certificate that corrected it, and where.</summary>
/// <param name="By">The correction.</param>
/// <param name="RawMillimetres">The diameter as read, in mm.</param>
public readonly record struct SharedCorrection(CertifiedCorrection By, double RawMillimetres);
