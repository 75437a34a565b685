using PupilBridge.Exams.Calibration;

namespace PupilBridge.Cohort.Calibrations;

/// <summary>For each contribution a case in which it is the largest.</summary>
public static class Dominated
{
    private static readonly ScaleTruth Good = new()
    {
        Repeatability = 0.004,
        Disc = 0.001,
        Common = 0.001,
        Straightness = 0.001,
        StepMicrometres = 1,
    };

    /// <summary>The case.</summary>
    /// <param name="kind">The contribution.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such contribution.</exception>
    public static (CalibrationDesign Design, ScaleTruth Truth) By(ContributionKind kind) =>
        kind switch
        {
            // Few readings behind the line, many for what is measured.
            ContributionKind.LineFromReadings => (new(5, 2) { Readings = 30 }, Good with { Repeatability = 0.03 }),
            ContributionKind.LineFromDiscs => (new(5, 5), Good with { Disc = 0.03 }),
            ContributionKind.Straightness => (new(8, 5), Good with { Straightness = 0.03 }),
            ContributionKind.CommonOffset => (new(5, 5), Good with { Common = 0.03 }),
            ContributionKind.Repeatability => (new(8, 5), Good with { Repeatability = 0.03 }),
            ContributionKind.Resolution => (
                new(8, 10),
                Good with
                {
                    Repeatability = 0.001,
                    StepMicrometres = 50,
                    IsHeldInPlace = true,
                }
            ),
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown."),
        };
}
