using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>What a quick check says of one scale.</summary>
/// <param name="Disc">The disc.</param>
/// <param name="Readings">How many readings count.</param>
/// <param name="ErrorMillimetres">Mean indicated minus certified diameter before correction, in mm; null without a reading.</param>
/// <param name="RemainingMillimetres">
/// The same after the calibration in force, in mm; null without a reading, or where no calibration is in force.
/// </param>
/// <param name="ExpandedMillimetres">
/// The expanded uncertainty (factor 2) of the remaining error, or of the error where there is no calibration, in mm.
/// </param>
/// <param name="Statement">What the rule says of the remaining error, or of the error; null without a reading.</param>
public sealed record QuickCheckScale(
    Disc Disc,
    int Readings,
    double? ErrorMillimetres,
    double? RemainingMillimetres,
    double ExpandedMillimetres,
    ConformityStatement? Statement
);

/// <summary>What a quick check says: one disc by both scales, against the calibration in force.</summary>
public static class QuickCheckOutcome
{
    /// <summary>Looks at a quick check.</summary>
    /// <param name="sitting">The run.</param>
    /// <returns>Both scales.</returns>
    /// <exception cref="ArgumentException">It is no quick check, or its disc is not in its set.</exception>
    public static PerEye<QuickCheckScale> Of(Exam sitting)
    {
        ArgumentNullException.ThrowIfNull(sitting);
        if (
            sitting.Bench is not { Kind: BenchRunKind.QuickCheck, DiscSet: { } set, Plan.Count: > 0 } run
            || set.Find(run.Plan[0].Disc ?? "") is not { } disc
        )
            throw new ArgumentException("It is no quick check of a disc.", nameof(sitting));
        var progress = RunProgress.Of(sitting);
        return new()
        {
            Right = Of(sitting, run, disc, progress, Eye.Right),
            Left = Of(sitting, run, disc, progress, Eye.Left),
        };
    }

    private static QuickCheckScale Of(Exam sitting, BenchRun run, Disc disc, RunProgress progress, Eye eye)
    {
        double[] indicated =
        [
            .. progress.Counting.Where(reading => reading.Capture.Eye == eye).Select(r => r.IndicatedMillimetres),
        ];
        if (indicated.Length == 0)
            return new(disc, 0, null, null, 0, null);
        var sample = Sample.Of(indicated);
        var scatter =
            sample.Count > 1
                ? sample.StandardDeviation
                : sitting.Calibration?.Scales[eye].RepeatabilityMillimetres ?? 0;
        var resolution = sitting.Instrument?.Scales[eye].Resolution ?? new Micrometres(0);
        var (corrected, ofLine) = (sitting.Corrections?[eye] ?? Correction.None).Apply(sample.Mean);
        var expanded =
            Diameter.CoverageFactor
            * Math.Sqrt(
                Square(scatter) / sample.Count
                    + Square(DiameterUncertainty.FromResolution(resolution))
                    + Square(disc.StandardUncertaintyMillimetres)
                    + Square(run.DiscSet!.CommonUncertaintyMillimetres)
                    + Square(ofLine)
            );
        var error = sample.Mean - disc.DiameterMillimetres;
        double? remaining = sitting.Calibration is null ? null : corrected - disc.DiameterMillimetres;
        var rule = run.Rule ?? DecisionRule.Default;
        return new(disc, sample.Count, error, remaining, expanded, rule.Decide(remaining ?? error, expanded));
    }

    private static double Square(double value) => value * value;
}
