using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Calibration;

/// <summary>A line's value with its uncertainty.</summary>
/// <param name="X">Where.</param>
/// <param name="Y">The value.</param>
/// <param name="StandardUncertainty">Its combined standard uncertainty u.</param>
/// <param name="DegreesOfFreedom">The effective degrees of freedom behind u; infinite where u is known outright.</param>
public readonly record struct LinePrediction(double X, double Y, double StandardUncertainty, double DegreesOfFreedom)
{
    /// <summary>The expanded uncertainty U = 2u.</summary>
    public double ExpandedForFactor2 => 2 * StandardUncertainty;

    /// <summary>The factor k for 95 %, from Student's t and the effective degrees of freedom (JCGM 100:2008, G.4).</summary>
    public double FactorFor95 => Quantiles.StudentT(DegreesOfFreedom);

    /// <summary>The expanded uncertainty for 95 %.</summary>
    public double ExpandedFor95 => FactorFor95 * StandardUncertainty;
}
