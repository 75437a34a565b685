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
/// The expanded uncertainty for 95 % of the remaining error, or of the error where there is no calibration, in mm; few readings make it
/// wide, as by Student's t. Null without a reading, or where one single reading says nothing of their scatter.
/// </param>
/// <param name="Statement">What the rule says of the remaining error, or of the error; null without an uncertainty.</param>
public sealed record QuickCheckScale(
    Disc Disc,
    int Readings,
    double? ErrorMillimetres,
    double? RemainingMillimetres,
    double? ExpandedMillimetres,
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
            return new(disc, 0, null, null, null, null);
        var sample = Sample.Of(indicated);
        var (corrected, ofLine) = (sitting.Corrections?[eye] ?? Correction.None).Apply(sample.Mean);
        var error = sample.Mean - disc.DiameterMillimetres;
        double? remaining = sitting.Calibration is null ? null : corrected - disc.DiameterMillimetres;
        if (ScatterOf(sample, sitting.Calibration?.Scales[eye]) is not { } scatter)
            return new(disc, sample.Count, error, remaining, null, null);
        var resolution = sitting.Instrument?.Scales[eye].Resolution ?? new Micrometres(0);
        var ofMean = scatter.Millimetres / Math.Sqrt(sample.Count);
        var known = Math.Sqrt(
            Square(DiameterUncertainty.FromResolution(resolution))
                + Square(disc.StandardUncertaintyMillimetres)
                + Square(run.DiscSet!.CommonUncertaintyMillimetres)
                + Square(ofLine)
        );
        var degrees = EffectiveDegrees.Of((ofMean, scatter.DegreesOfFreedom), (known, double.PositiveInfinity));
        var expanded = Quantiles.StudentT(degrees) * double.Hypot(ofMean, known);
        var rule = run.Rule ?? DecisionRule.Default;
        return new(disc, sample.Count, error, remaining, expanded, rule.Decide(remaining ?? error, expanded));
    }

    /// <summary>
    /// The scatter of one reading: as the readings show it themselves, or as the calibration found it where that is more, since a few
    /// readings can be alike by chance.
    /// </summary>
    private static (double Millimetres, double DegreesOfFreedom)? ScatterOf(Sample sample, CalibratedScale? calibrated)
    {
        if (
            calibrated is { RepeatabilityMillimetres: var found }
            && (sample.Count == 1 || found >= sample.StandardDeviation)
        )
            return (found, calibrated.Line.DegreesOfFreedom);
        return sample.Count > 1 ? (sample.StandardDeviation, sample.Count - 1) : null;
    }

    private static double Square(double value) => value * value;
}
