using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Bench.Certificates;

/// <summary>What a certificate needs beside its run.</summary>
public sealed record CertificateContext
{
    /// <summary>The number it gets.</summary>
    public required long Number { get; init; }

    /// <summary>The clinic; empty if it did not say.</summary>
    public required string Clinic { get; init; }

    /// <summary>When it is issued.</summary>
    public required UtcTime Issued { get; init; }

    /// <summary>By whom.</summary>
    public required PersonId IssuedBy { get; init; }

    /// <summary>From when on it holds.</summary>
    public required UtcTime Effective { get; init; }

    /// <summary>From when on it counts as expired.</summary>
    public required UtcTime? Expires { get; init; }

    /// <summary>The calibration whose place it takes; null if there is none.</summary>
    public required IssuedCalibration? Supersedes { get; init; }

    /// <summary>The timing of stimuli, with where it comes from; null if none was measured.</summary>
    public required CertifiedTiming? Timing { get; init; }

    /// <summary>The lamps; null if they were never measured.</summary>
    public required LampBalanceRecord? Lamps { get; init; }

    /// <summary>The repeatability on living people; null if none is in use.</summary>
    public required AdoptedRepeatability? Repeatability { get; init; }

    /// <summary>The program's version.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>The end of the journal; empty where it is not known.</summary>
    public required string JournalHead { get; init; }
}

/// <summary>From a finished calibration run to its certificate.</summary>
public static class CertificateMaking
{
    /// <summary>Into so many stretches the band is cut.</summary>
    private const int BandStretches = 40;

    /// <summary>Makes the certificate.</summary>
    /// <param name="sitting">A calibration run whose scales both have a fit.</param>
    /// <param name="outcome">Both fits.</param>
    /// <param name="context">What else it needs.</param>
    /// <returns>The certificate.</returns>
    /// <exception cref="ArgumentException">A scale has no fit, or the run is none.</exception>
    public static Certificate Of(Exam sitting, PerEye<ScaleOutcome> outcome, CertificateContext context)
    {
        ArgumentNullException.ThrowIfNull(sitting);
        ArgumentNullException.ThrowIfNull(outcome);
        ArgumentNullException.ThrowIfNull(context);
        if (sitting is not { Bench: { DiscSet: { } set } run, Instrument: { } instrument })
            throw new ArgumentException("It is no calibration run.", nameof(sitting));
        var rule = run.Rule ?? DecisionRule.Default;
        var progress = RunProgress.Of(sitting);
        return new()
        {
            Number = context.Number,
            Clinic = context.Clinic,
            Issued = context.Issued.ToString(),
            IssuedBy = context.IssuedBy.Value,
            Effective = context.Effective.ToString(),
            Expires = context.Expires?.ToString(),
            Supersedes = context.Supersedes?.Number,
            Instrument = new(
                sitting.Serial.Value,
                instrument.Model,
                instrument.Firmware,
                instrument.Scales.Select((_, scale) => scale.Resolution.Value)
            ),
            Discs = new(
                set.Name,
                set.CertificateNumber,
                set.CertifiedBy,
                Day(set.Certified),
                set.Expires is { } last ? Day(last) : null,
                set.CommonUncertaintyMillimetres,
                [
                    .. set.Discs.Select(disc => new CertifiedDisc(
                        disc.Name,
                        disc.DiameterMillimetres,
                        disc.StandardUncertaintyMillimetres
                    )),
                ]
            ),
            Run = new(
                sitting.Id.Value,
                run.Technician.Value,
                sitting.Opening.When.At.ToString(),
                (run.Ending?.At ?? sitting.LastActivity.At).ToString(),
                run.Seed.ToString("x16", CultureInfo.InvariantCulture),
                run.TemperatureCelsius,
                run.Conditions,
                run.StraightnessMillimetres
            ),
            Rule = new(CertificateWords.Of(rule.Kind), rule.MaximumPermissibleErrorMillimetres, rule.GuardBandFactor),
            Scales = outcome.Select((eye, scale) => Of(scale, eye, progress)),
            Timing = context.Timing,
            Lamps = context.Lamps is { Balance: { } balance } lamps
                ? new(
                    lamps.At.ToString(),
                    lamps.Who.Value,
                    lamps.Source == LampReadingSource.Instrument ? "instrument" : "typed",
                    balance.LogUnits,
                    balance.ExpandedFor95LogUnits
                )
                : null,
            Repeatability = context.Repeatability is { } live
                ? new(live.Run.Value, live.WithinMillimetres, live.DegreesOfFreedom)
                : null,
            ProgramVersion = context.ProgramVersion,
            JournalHead = context.JournalHead,
        };
    }

    private static CertifiedScale Of(ScaleOutcome outcome, Eye eye, RunProgress progress)
    {
        var fit = outcome.Fit ?? throw new ArgumentException(outcome.Refusal ?? "A scale has no fit.", nameof(outcome));
        var correction = fit.Correction;
        var (u1, u2, r) = LineUncertainty(correction);
        return new()
        {
            Readings = [.. progress.Readings.Where(reading => reading.Capture.Eye == eye).Select(Of)],
            Means = [.. outcome.Discs.Select(disc => Of(disc, fit.Line))],
            Line = new(
                correction.Origin,
                correction.Intercept,
                u1,
                correction.Slope,
                u2,
                r,
                fit.ResidualDeviationMillimetres,
                fit.RepeatabilityMillimetres,
                fit.DegreesOfRepeats,
                Finite(fit.Check.F),
                Finite(fit.Check.ChanceOfF) ?? 1,
                fit.Check.IsBent
            ),
            Budget = BudgetOf(fit),
            Band = BandOf(fit),
            Statement = CertificateWords.Of(outcome.Statement!.Value),
        };
    }

    /// <summary>The standard uncertainties of y1 and y2 and their correlation, with all that makes the line uncertain.</summary>
    private static (double Intercept, double Slope, double Correlation) LineUncertainty(CorrectionLine line)
    {
        var intercept =
            line.FromReadings.Intercept
            + line.FromDiscs.Intercept
            + (line.Common.StandardUncertainty * line.Common.StandardUncertainty);
        var slope = line.FromReadings.Slope + line.FromDiscs.Slope;
        var covariance = line.FromReadings.Covariance + line.FromDiscs.Covariance;
        var (u1, u2) = (Math.Sqrt(intercept), Math.Sqrt(slope));
        return (u1, u2, u1 > 0 && u2 > 0 ? covariance / (u1 * u2) : 0);
    }

    private static CertifiedReading Of(RunReading reading) =>
        new(
            reading.Capture.CompletedBy.Value,
            reading.Capture.When.At.ToString(),
            reading.Step?.Disc ?? "",
            reading.Capture.Nasal.Position.Value,
            reading.Capture.Temporal.Position.Value,
            reading.IndicatedMillimetres,
            CertificateWords.Of(reading.State),
            reading.Mark is { IsSetAside: true } aside ? aside.Reason : "",
            reading.Mark is { IsSetAside: true } by ? by.Who.Value : ""
        );

    private static CertifiedMean Of(DiscDecision disc, LineFit line) =>
        new(
            disc.Mean.Disc.Name,
            disc.Mean.Disc.DiameterMillimetres,
            disc.Mean.Indicated.Count,
            disc.Mean.Indicated.Mean,
            disc.Mean.Indicated.StandardDeviation,
            disc.Mean.CorrectionMillimetres,
            line.ResidualOf(new(disc.Mean.Indicated.Mean, disc.Mean.CorrectionMillimetres)),
            disc.ErrorMillimetres,
            disc.ExpandedFor95Millimetres,
            CertificateWords.Of(disc.Statement)
        );

    private static CertifiedBudget BudgetOf(Calibration.Scale.ScaleFit fit)
    {
        var at = BenchRunSummary.MiddleMillimetres;
        var budget = fit.Budget(at);
        return new(
            at,
            fit.Correction.Apply(at).Millimetres,
            [
                .. budget.Contributions.Select(part => new CertifiedContribution(
                    CertificateWords.Of(part.Kind),
                    part.Type.ToString(),
                    part.StandardUncertaintyMillimetres,
                    Finite(part.DegreesOfFreedom)
                )),
            ],
            budget.StandardUncertaintyMillimetres,
            Finite(budget.DegreesOfFreedom),
            budget.ExpandedForFactor2Millimetres,
            budget.ExpandedFor95Millimetres
        );
    }

    private static Values.ValueList<CertifiedBandPoint> BandOf(Calibration.Scale.ScaleFit fit)
    {
        var (from, to) = (fit.Means[0].Indicated.Mean, fit.Means[^1].Indicated.Mean);
        return
        [
            .. Enumerable
                .Range(0, BandStretches + 1)
                .Select(i => fit.Correction.Predict(from + ((to - from) * i / BandStretches)))
                .Select(one => new CertifiedBandPoint(one.X, one.Y, one.ExpandedFor95)),
        ];
    }

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
