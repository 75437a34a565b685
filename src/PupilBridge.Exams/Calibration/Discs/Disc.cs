namespace PupilBridge.Exams.Calibration.Discs;

/// <summary>A reference disc as its certificate describes it.</summary>
/// <param name="Name">What is written on it or its holder; unique within its set.</param>
/// <param name="DiameterMillimetres">The certified diameter, in mm, more than 0.</param>
/// <param name="StandardUncertaintyMillimetres">
/// The standard uncertainty of that diameter that belongs to this disc alone, in mm, 0 or more: the certificate's expanded uncertainty
/// divided by its coverage factor, without what all discs of the set share.
/// </param>
public sealed record Disc(string Name, double DiameterMillimetres, double StandardUncertaintyMillimetres);
