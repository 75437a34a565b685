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
);
