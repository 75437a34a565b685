using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration.Scale;

/// <summary>
/// Whether a scale is straight as far as its discs can tell: how far their means lie off the line, against all that is known to move
/// them. The usual ratio of variances for lack of fit, where the discs' own uncertainty counts beside the repeats.
/// </summary>
/// <param name="Observed">The mean square of the means' residuals, in mm².</param>
/// <param name="DegreesOfObserved">Discs − 2.</param>
/// <param name="Expected">What discs, repeats, resolution and stated straightness explain of it, in mm².</param>
/// <param name="DegreesOfExpected">The effective degrees of freedom of that; infinite where nothing of it was found from readings.</param>
public sealed record LineCheck(double Observed, int DegreesOfObserved, double Expected, double DegreesOfExpected)
{
    /// <summary>The chance below which the scale counts as not straight. Common practice, 5 %.</summary>
    public const double Level = 0.05;

    /// <summary>The ratio; near 1 where everything is known.</summary>
    public double F => Observed / Expected;

    /// <summary>The probability that a straight scale gives a ratio as large.</summary>
    public double ChanceOfF => Quantiles.ChanceOfF(DegreesOfObserved, DegreesOfExpected, F);

    /// <summary>Whether the means lie farther off the line than is explained.</summary>
    public bool IsBent => Observed > Expected && ChanceOfF < Level;
}
