using PupilBridge.Exams.Calibration.Decisions;

namespace PupilBridge.Clinic.Bench;

/// <summary>What the clinic set for the service bench. All defaults are ours; local policy goes before them.</summary>
public sealed record BenchSettings
{
    /// <summary>What ships with the program.</summary>
    public static BenchSettings Default { get; } = new();

    /// <summary>The clinic's name, for certificates; may be empty.</summary>
    public string ClinicName { get; init; } = "";

    /// <summary>The decision rule that new runs begin with.</summary>
    public DecisionRule Rule { get; init; } = DecisionRule.Default;

    /// <summary>How long a certificate holds, in months.</summary>
    public int CertificateMonths { get; init; } = 12;

    /// <summary>How often each disc is read by each scale in a calibration.</summary>
    public int CalibrationRepeats { get; init; } = 5;

    /// <summary>How often the disc is read by each scale in a quick check.</summary>
    public int QuickCheckRepeats { get; init; } = 2;

    /// <summary>How often each eye is set in each light in a study on a person.</summary>
    public int LiveRepeats { get; init; } = 5;

    /// <summary>A drift that reaches the limit within so many days is warned of.</summary>
    public int DriftHorizonDays { get; init; } = 90;
}
