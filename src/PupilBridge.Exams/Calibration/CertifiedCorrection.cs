using PupilBridge.Exams.Diameters;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Calibration;

/// <summary>
/// The correction of one scale by one certificate. It knows what its errors have in common with those of other corrections, so that a
/// comparison can leave out what cancels (JCGM 100:2008, 5.2.2).
/// </summary>
/// <param name="Certificate">The certificate's number; each number stands for one certificate for good.</param>
/// <param name="Scale">Which scale of the instrument.</param>
/// <param name="Line">The correction.</param>
public sealed record CertifiedCorrection(long Certificate, Eye Scale, CorrectionLine Line) : ICorrection
{
    /// <inheritdoc/>
    public bool IsCalibrated => true;

    /// <inheritdoc/>
    public (double Millimetres, double StandardUncertaintyMillimetres) Apply(double rawMillimetres) =>
        Line.Apply(rawMillimetres);

    /// <summary>
    /// The covariance of two corrections. Those of one scale come from one line, whose error at one diameter is that at another, but for
    /// the slope's share of their distance. Those of two scales share the offset that all discs of the set share, and no more is taken to
    /// cancel, though single discs' errors would. Corrections by different certificates count as independent. How far a scale lies off its
    /// line at each diameter never cancels.
    /// </summary>
    /// <param name="rawMillimetres">The diameter as read that this one corrects, in mm.</param>
    /// <param name="other">The other correction.</param>
    /// <param name="otherRawMillimetres">The diameter as read that it corrects, in mm.</param>
    /// <returns>The covariance, in mm².</returns>
    public double CovarianceWith(double rawMillimetres, CertifiedCorrection other, double otherRawMillimetres)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (other.Certificate != Certificate)
            return 0;
        var common = Line.Common.StandardUncertainty * Line.Common.StandardUncertainty;
        if (other.Scale != Scale)
            return common;
        var (here, there) = (rawMillimetres - Line.Origin, otherRawMillimetres - Line.Origin);
        return Line.FromReadings.CovarianceAt(here, there) + Line.FromDiscs.CovarianceAt(here, there) + common;
    }
}
