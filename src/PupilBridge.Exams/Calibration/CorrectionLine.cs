using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration;

/// <summary>
/// A calibration as it is kept and used: the line's numbers without the readings behind it (JCGM 100:2008, H.3). It
/// corrects a diameter by <c>y(d) = y1 + y2·(d − d0)</c>. State it at a d0 within the readings: far from them the covariance
/// cancels large terms.
/// </summary>
/// <param name="Origin">d0, in mm.</param>
/// <param name="Intercept">y1, the correction at d0, in mm.</param>
/// <param name="InterceptUncertainty">Its standard uncertainty from the scatter of the readings alone, in mm.</param>
/// <param name="Slope">y2, in mm per mm.</param>
/// <param name="SlopeUncertainty">Its standard uncertainty.</param>
/// <param name="Covariance">The covariance of y1 and y2.</param>
/// <param name="ResidualDeviation">The standard deviation of the residuals, in mm.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom behind all of them.</param>
/// <param name="Common">The offset that all readings share.</param>
public sealed record CorrectionLine(
    double Origin,
    double Intercept,
    double InterceptUncertainty,
    double Slope,
    double SlopeUncertainty,
    double Covariance,
    double ResidualDeviation,
    double DegreesOfFreedom,
    CommonOffset Common
) : ICorrection
{
    /// <inheritdoc/>
    public bool IsCalibrated => true;

    /// <summary>Takes over what a fit says.</summary>
    /// <param name="line">The fitted line with its common offset.</param>
    /// <returns>Its numbers.</returns>
    public static CorrectionLine Of(CalibrationLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var fit = line.Fit;
        return new(
            fit.Origin,
            fit.Intercept,
            fit.InterceptUncertainty,
            fit.Slope,
            fit.SlopeUncertainty,
            fit.Covariance,
            fit.ResidualDeviation,
            fit.DegreesOfFreedom,
            line.Common
        );
    }

    /// <summary>The correction of a diameter.</summary>
    /// <param name="indicatedMillimetres">The diameter as read, in mm.</param>
    /// <returns>Correction, standard uncertainty and effective degrees of freedom.</returns>
    public LinePrediction Predict(double indicatedMillimetres)
    {
        var fromScatter = FromScatter(indicatedMillimetres);
        return new(
            indicatedMillimetres,
            At(indicatedMillimetres),
            double.Hypot(fromScatter, Common.StandardUncertainty),
            EffectiveDegrees.Of((fromScatter, DegreesOfFreedom), (Common.StandardUncertainty, Common.DegreesOfFreedom))
        );
    }

    /// <inheritdoc/>
    public (double Millimetres, double StandardUncertaintyMillimetres) Apply(double rawMillimetres) =>
        (rawMillimetres + At(rawMillimetres), double.Hypot(FromScatter(rawMillimetres), Common.StandardUncertainty));

    private double At(double at) => Intercept + (Slope * (at - Origin));

    private double FromScatter(double at)
    {
        var away = at - Origin;
        var variance =
            (InterceptUncertainty * InterceptUncertainty)
            + (away * away * SlopeUncertainty * SlopeUncertainty)
            + (2 * away * Covariance);
        return Math.Sqrt(Math.Max(variance, 0));
    }
}
