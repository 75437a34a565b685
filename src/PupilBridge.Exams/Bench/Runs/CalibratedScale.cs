using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Decisions;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>One scale as a certificate leaves it.</summary>
/// <param name="Line">Its correction.</param>
/// <param name="RepeatabilityMillimetres">The standard deviation of readings of one disc, in mm.</param>
/// <param name="Statement">What the rule said of its error before correction.</param>
/// <param name="SmallestMillimetres">The smallest disc, in mm: below it the line is drawn on, not measured.</param>
/// <param name="LargestMillimetres">The largest disc, in mm.</param>
public sealed record CalibratedScale(
    CorrectionLine Line,
    double RepeatabilityMillimetres,
    ConformityStatement Statement,
    double SmallestMillimetres,
    double LargestMillimetres
)
{
    /// <summary>Whether its numbers can correct anything: a correction that is no number would make every diameter none.</summary>
    public bool IsSound()
    {
        double[] numbers =
        [
            Line.Origin,
            Line.Intercept,
            Line.Slope,
            Line.FromReadings.Covariance,
            Line.FromDiscs.Covariance,
            SmallestMillimetres,
            LargestMillimetres,
        ];
        double[] variances =
        [
            Line.FromReadings.Intercept,
            Line.FromReadings.Slope,
            Line.FromDiscs.Intercept,
            Line.FromDiscs.Slope,
            Line.Straightness.StandardUncertainty,
            Line.Common.StandardUncertainty,
            RepeatabilityMillimetres,
        ];
        return numbers.All(double.IsFinite)
            && variances.All(one => one >= 0 && double.IsFinite(one))
            && Line.DegreesOfFreedom > 0
            && Line.Common.DegreesOfFreedom > 0;
    }
}
