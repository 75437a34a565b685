using PupilBridge.Exams.Diameters;

namespace PupilBridge.Exams.Calibration;

/// <summary>
/// A calibration as it is kept and used: the line's numbers without the readings behind it (JCGM 100:2008, H.3). It
/// corrects a diameter by <c>y(d) = y1 + y2·(d − d0)</c>. State it at a d0 within the readings: far from them the covariance
/// cancels large terms.
/// </summary>
/// <param name="Origin">d0, in mm.</param>
/// <param name="Intercept">y1, the correction at d0, in mm.</param>
/// <param name="Slope">y2, in mm per mm.</param>
/// <param name="FromReadings">The uncertainty that comes from the scatter of the readings.</param>
/// <param name="DegreesOfFreedom">The degrees of freedom behind it.</param>
public sealed record CorrectionLine(
    double Origin,
    double Intercept,
    double Slope,
    LineVariance FromReadings,
    double DegreesOfFreedom
) : ICorrection
{
    /// <summary>The uncertainty that was known beforehand: the discs' own, the resolution, the stated straightness.</summary>
    public LineVariance FromDiscs { get; init; }

    /// <summary>How far the scale may lie off the line at the diameter that is corrected.</summary>
    public Straightness Straightness { get; init; }

    /// <summary>The offset that all readings share.</summary>
    public CommonOffset Common { get; init; } = CommonOffset.None;

    /// <inheritdoc/>
    public bool IsCalibrated => true;

    /// <summary>Takes over what a plain fit of readings says, with nothing known of discs.</summary>
    /// <param name="line">The fitted line with its common offset.</param>
    /// <returns>Its numbers.</returns>
    public static CorrectionLine Of(CalibrationLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var fit = line.Fit;
        var (u1, u2) = (fit.InterceptUncertainty, fit.SlopeUncertainty);
        return new(fit.Origin, fit.Intercept, fit.Slope, new(u1 * u1, u2 * u2, fit.Covariance), fit.DegreesOfFreedom)
        {
            Common = line.Common,
        };
    }

    /// <summary>What makes the correction of a diameter uncertain.</summary>
    /// <param name="indicatedMillimetres">The diameter as read, in mm.</param>
    /// <returns>The line by readings and by discs, straightness, and the common offset.</returns>
    public IReadOnlyList<Contribution> Contributions(double indicatedMillimetres)
    {
        var away = indicatedMillimetres - Origin;
        var (straightness, isBent) = (Straightness.StandardUncertainty, Straightness.IsFromReadings);
        return
        [
            new(
                ContributionKind.LineFromReadings,
                EvaluationType.A,
                FromReadings.UncertaintyAt(away),
                DegreesOfFreedom
            ),
            new(
                ContributionKind.LineFromDiscs,
                EvaluationType.B,
                FromDiscs.UncertaintyAt(away),
                double.PositiveInfinity
            ),
            isBent
                ? new(ContributionKind.Straightness, EvaluationType.A, straightness, DegreesOfFreedom)
                : new(ContributionKind.Straightness, EvaluationType.B, straightness, double.PositiveInfinity),
            new(ContributionKind.CommonOffset, EvaluationType.B, Common.StandardUncertainty, Common.DegreesOfFreedom),
        ];
    }

    /// <summary>The correction of a diameter.</summary>
    /// <param name="indicatedMillimetres">The diameter as read, in mm.</param>
    /// <returns>Correction, standard uncertainty and effective degrees of freedom.</returns>
    public LinePrediction Predict(double indicatedMillimetres)
    {
        var budget = Budget(indicatedMillimetres);
        return new(
            indicatedMillimetres,
            At(indicatedMillimetres),
            budget.StandardUncertaintyMillimetres,
            budget.DegreesOfFreedom
        );
    }

    /// <inheritdoc/>
    public (double Millimetres, double StandardUncertaintyMillimetres) Apply(double rawMillimetres)
    {
        // The same as the budget's sum, without a list: thousands of exams are read anew under another calibration.
        var away = rawMillimetres - Origin;
        var variance =
            Math.Max(0, FromReadings.CovarianceAt(away, away))
            + Math.Max(0, FromDiscs.CovarianceAt(away, away))
            + (Straightness.StandardUncertainty * Straightness.StandardUncertainty)
            + (Common.StandardUncertainty * Common.StandardUncertainty);
        return (rawMillimetres + At(rawMillimetres), Math.Sqrt(variance));
    }

    private UncertaintyBudget Budget(double at) => new(at, Contributions(at));

    private double At(double at) => Intercept + (Slope * (at - Origin));
}
