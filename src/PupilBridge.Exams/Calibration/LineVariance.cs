namespace PupilBridge.Exams.Calibration;

/// <summary>
/// One part of a line's uncertainty: the variances of its value at the origin and of its slope, and their covariance
/// (JCGM 100:2008, H.3.4).
/// </summary>
/// <param name="Intercept">The variance of the value at the origin, in mm².</param>
/// <param name="Slope">The variance of the slope.</param>
/// <param name="Covariance">Their covariance, in mm.</param>
public readonly record struct LineVariance(double Intercept, double Slope, double Covariance)
{
    /// <summary>The standard uncertainty of the line's value that comes from this part.</summary>
    /// <param name="away">How far from the origin, in mm.</param>
    /// <returns>u, in mm.</returns>
    public double UncertaintyAt(double away) => Math.Sqrt(Math.Max(0, CovarianceAt(away, away)));

    /// <summary>The covariance of the line's values at two places that comes from this part.</summary>
    /// <param name="away">How far the one is from the origin, in mm.</param>
    /// <param name="otherAway">How far the other is, in mm.</param>
    /// <returns>The covariance, in mm²; at one place the variance.</returns>
    public double CovarianceAt(double away, double otherAway) =>
        Intercept + (away * otherAway * Slope) + ((away + otherAway) * Covariance);
}
