using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Calibration.Scale;
using PupilBridge.Instrument;
using PupilBridge.Simulator;

namespace PupilBridge.Cohort.Calibrations;

/// <summary>How often the stated interval held the true diameter.</summary>
/// <param name="Trials">How many simulated calibrations, each with one measurement.</param>
/// <param name="Held">How often the 95 % interval held the truth.</param>
/// <param name="HeldWithout">The same with one contribution left out of the budget; empty unless one was named.</param>
/// <param name="Bent">How often the scale was found not to be straight.</param>
public sealed record Coverage(int Trials, int Held, int HeldWithout, int Bent)
{
    /// <summary>In percent.</summary>
    public double Percent => 100.0 * Held / Trials;

    /// <summary>In percent, without the contribution.</summary>
    public double PercentWithout => 100.0 * HeldWithout / Trials;
}

/// <summary>
/// Calibrates simulated scales with simulated discs by the product's own fit, measures a diameter with each, and looks whether the stated
/// 95 % interval holds it. The fit is told the standard deviations that certificates and data sheets tell; everything else it must find.
/// </summary>
public static class CoverageRun
{
    /// <summary>Runs.</summary>
    /// <param name="seed">The seed; equal seeds give equal results.</param>
    /// <param name="design">How it is done.</param>
    /// <param name="truth">What the scales and discs truly are.</param>
    /// <param name="trials">How many.</param>
    /// <param name="without">A contribution to leave out as well; null for none.</param>
    public static Coverage Of(
        long seed,
        CalibrationDesign design,
        ScaleTruth truth,
        int trials,
        ContributionKind? without = null
    )
    {
        ArgumentNullException.ThrowIfNull(design);
        ArgumentNullException.ThrowIfNull(truth);
        var chance = new Chance(seed, "calibrations");
        var (held, less, bent) = (0, 0, 0);
        for (var trial = 0; trial < trials; trial++)
        {
            var scale = new SimulatedScale(truth, chance);
            var fit = Calibrate(scale, design, truth, chance);
            var diameter = chance.NextBetween(CalibrationDesign.Smallest, CalibrationDesign.Largest);
            var put = scale.Put();
            var indicated = Enumerable.Range(0, design.Readings).Average(_ => scale.Read(diameter, put));
            var budget = fit.Budget(indicated, design.Readings);
            var error = Math.Abs(fit.Correction.Apply(indicated).Millimetres - diameter);
            held += error <= budget.ExpandedFor95Millimetres ? 1 : 0;
            less += without is { } kind && error <= budget.Without(kind).ExpandedFor95Millimetres ? 1 : 0;
            bent += fit.Check.IsBent ? 1 : 0;
        }

        return new(trials, held, less, bent);
    }

    private static ScaleFit Calibrate(SimulatedScale scale, CalibrationDesign design, ScaleTruth truth, Chance chance)
    {
        var common = truth.Common * chance.NextGaussian();
        var readings = new List<DiscReading>(design.Discs * design.Repeats);
        foreach (var certified in design.Diameters)
        {
            var disc = new Disc($"{certified:0.000}", certified, truth.Disc);
            var (real, put) = (certified + (truth.Disc * chance.NextGaussian()) + common, scale.Put());
            for (var repeat = 0; repeat < design.Repeats; repeat++)
                readings.Add(new(disc, scale.Read(real, put)));
        }

        return ScaleFit.Of(
            readings,
            new(new Micrometres(truth.StepMicrometres), truth.Straightness, new CommonOffset(truth.Common))
        );
    }
}
