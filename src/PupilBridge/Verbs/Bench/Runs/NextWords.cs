using PupilBridge.Clinic.Views;

namespace PupilBridge.Verbs.Bench.Runs;

/// <summary>What to do next with a run.</summary>
internal static class NextWords
{
    /// <summary>One or two sentences.</summary>
    /// <param name="run">The run.</param>
    public static string Of(BenchRunView run) =>
        (run.Line.State, run.Line.Kind) switch
        {
            ("open", _) => $"It is open. Go on with: {Resume(run.Line)}",
            ("finished", "calibration") when run.Line.Certificate is { } number =>
                $"Its certificate: pupilbridge calibration certificate {number}",
            ("finished", "calibration") when run.Scales is { Right.Statement: not null, Left.Statement: not null } =>
                $"Next: pupilbridge calibration issue {run.Line.Run}  (shows the certificate before it is issued)",
            ("finished", "calibration") => "It gives no certificate. What was measured is kept; begin a new run.",
            ("finished", "live-repeatability") when run.Live is { WithinMillimetres: not null, IsAdopted: false } =>
                $"Next: pupilbridge calibration adopt {run.Line.Run}  (lets it count for this instrument's exams)",
            ("finished", "quick-check") =>
                $"It is part of the drift: pupilbridge calibration drift --instrument {run.Line.Instrument}",
            ("finished", "timing") => "It will be part of the instrument's next certificate.",
            ("finished", _) => "What was measured is kept.",
            _ => "It gives nothing that counts. What was measured is kept.",
        };

    /// <summary>The command that goes on with an open run.</summary>
    /// <param name="run">The run.</param>
    public static string Resume(BenchRunLine run) => $"pupilbridge calibration {VerbOf(run.Kind)} --resume {run.Run}";

    private static string VerbOf(string kind) =>
        kind switch
        {
            "quick-check" => "check",
            "timing" => "timing",
            "live-repeatability" => "live",
            _ => "run",
        };
}
