using PupilBridge.Clinic.Words;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Bench.Runs;

namespace PupilBridge.Clinic.Bench;

/// <summary>The words of the bench that cross the desk.</summary>
public static class BenchWords
{
    /// <summary>What a run is for.</summary>
    public static WordTable<BenchRunKind> Kinds { get; } =
        new(
            "run",
            (BenchRunKind.Calibration, "calibration"),
            (BenchRunKind.QuickCheck, "quick-check"),
            (BenchRunKind.StimulusTiming, "timing"),
            (BenchRunKind.LiveRepeatability, "live-repeatability")
        );

    /// <summary>How a calibration stands.</summary>
    public static WordTable<CalibrationStanding> Standings { get; } =
        new(
            "standing",
            (CalibrationStanding.Holds, "holds"),
            (CalibrationStanding.Missing, "missing"),
            (CalibrationStanding.Expired, "expired"),
            (CalibrationStanding.Failed, "failed")
        );

    /// <summary>How a scale's drift stands.</summary>
    public static WordTable<DriftState> Drifts { get; } =
        new(
            "drift",
            (DriftState.TooFewPoints, "too-few-points"),
            (DriftState.AsUsual, "as-usual"),
            (DriftState.Warning, "warning"),
            (DriftState.BeyondLimit, "beyond-limit")
        );
}
