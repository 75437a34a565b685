using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Scale;
using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Runs;

/// <summary>What a calibration run says of one scale.</summary>
/// <param name="Fit">The fit; null where the readings allow none.</param>
/// <param name="Discs">What the rule says of the error at each disc; empty without a fit.</param>
/// <param name="Refusal">Why there is no fit, for a person; null where there is one.</param>
public sealed record ScaleOutcome(ScaleFit? Fit, IReadOnlyList<DiscDecision> Discs, string? Refusal)
{
    /// <summary>The scale's statement: that of its worst disc; null without a fit.</summary>
    public ConformityStatement? Statement => Discs.Count == 0 ? null : ScaleDecision.Worst(Discs);

    /// <summary>The scale as a certificate leaves it; null without a fit.</summary>
    public CalibratedScale? Calibrated =>
        Fit is { } fit && Statement is { } statement
            ? new(
                fit.Correction,
                fit.RepeatabilityMillimetres,
                statement,
                fit.Means[0].Disc.DiameterMillimetres,
                fit.Means[^1].Disc.DiameterMillimetres
            )
            : null;
}

/// <summary>What a calibration run says of both scales.</summary>
public static class CalibrationOutcome
{
    /// <summary>Fits and decides.</summary>
    /// <param name="sitting">A calibration run.</param>
    /// <returns>Both scales, each with its fit or with the reason why there is none.</returns>
    /// <exception cref="ArgumentException">It is none, or it has no discs.</exception>
    public static PerEye<ScaleOutcome> Of(Exam sitting)
    {
        ArgumentNullException.ThrowIfNull(sitting);
        if (sitting.Bench is not { Kind: BenchRunKind.Calibration, DiscSet: not null } run)
            throw new ArgumentException("It is no calibration run.", nameof(sitting));
        var progress = RunProgress.Of(sitting);
        return new() { Right = Of(sitting, run, progress, Eye.Right), Left = Of(sitting, run, progress, Eye.Left) };
    }

    private static ScaleOutcome Of(Exam sitting, BenchRun run, RunProgress progress, Eye eye)
    {
        RunReading[] counting =
        [
            .. progress.Counting.Where(reading => reading.Capture.Eye == eye && reading.Step?.Disc is not null),
        ];
        DiscReading[] readings =
        [
            .. counting.Select(reading => new DiscReading(
                run.DiscSet!.Find(reading.Step!.Value.Disc!)!,
                reading.IndicatedMillimetres
            )),
        ];
        var known = new KnownBefore(
            // Each reading knows its own step: the instrument may have told of another one in the middle.
            counting.Select(reading => reading.Capture.Resolution).DefaultIfEmpty().Max(),
            run.StraightnessMillimetres,
            new(run.DiscSet!.CommonUncertaintyMillimetres)
        );
        try
        {
            var fit = ScaleFit.Of(readings, known);
            return new(fit, ScaleDecision.Of(fit, run.Rule ?? DecisionRule.Default), null);
        }
        catch (StatisticsRefusedException refused)
        {
            return new(null, [], refused.Message);
        }
    }
}
