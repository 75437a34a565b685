using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration.Scale;

/// <summary>All readings of one disc by one scale.</summary>
/// <param name="Disc">The disc.</param>
/// <param name="Indicated">Their mean and scatter, in mm.</param>
public sealed record DiscMean(Disc Disc, Sample Indicated)
{
    /// <summary>The correction that the disc asks for: certified minus indicated diameter, in mm.</summary>
    public double CorrectionMillimetres => Disc.DiameterMillimetres - Indicated.Mean;
}
