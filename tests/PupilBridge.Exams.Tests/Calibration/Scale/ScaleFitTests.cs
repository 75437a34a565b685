using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Calibration.Scale;
using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Calibration.Scale;

/// <summary>The calibration of a scale, on readings small enough to work out by hand.</summary>
public sealed class ScaleFitTests
{
    private static readonly KnownBefore Nothing = new(new Micrometres(0), 0, CommonOffset.None);

    /// <summary>
    /// Discs of 2, 4, 6, 8 mm read 0.1 mm too small at all sizes and 1 % of the way from 5 mm too wide, each twice, ±0.01 mm: corrections
    /// of the means are 0.1 − 0.01·(d − 5) exactly, so that the line meets all means and repeats are all that is uncertain:
    /// s² = 4·2·0.0001/4 = 0.0002, of a mean 0.0001.
    /// </summary>
    [Fact]
    public void A_straight_scale_gives_its_line_and_the_repeats_give_its_uncertainty()
    {
        var fit = ScaleFit.Of(Straight(), Nothing);
        Assert.Equal(8, fit.Readings);
        Assert.Equal(4, fit.DegreesOfRepeats);
        Assert.Equal(Math.Sqrt(0.0002), fit.RepeatabilityMillimetres, 12);
        Assert.Equal(Math.Sqrt(0.0008 / 6), fit.ResidualDeviationMillimetres, 12);
        var line = fit.Correction;
        Assert.Equal(0.1, line.Predict(4.9).Y, 12);
        Assert.Equal(-0.01 / 1.01, line.Slope, 12);
        Assert.Equal(0.0001 / 4, line.FromReadings.Intercept, 12);
        Assert.Equal(0, line.FromReadings.Covariance, 12);
        var squares = fit.Means.Sum(mean => Math.Pow(mean.Indicated.Mean - line.Origin, 2));
        Assert.Equal(0.0001 / squares, line.FromReadings.Slope, 12);
        Assert.Equal(4, line.DegreesOfFreedom);
        Assert.False(fit.Check.IsBent);
    }

    /// <summary>Each disc's own 0.02 mm over four discs is 0.01 mm at the middle; the common 0.03 mm stays whole: √(0.01² + 0.03²).</summary>
    [Fact]
    public void Uncertainty_of_single_discs_averages_out_and_that_of_the_set_does_not()
    {
        var known = new KnownBefore(new Micrometres(0), 0, new CommonOffset(0.03));
        var fit = ScaleFit.Of(Straight(own: 0.02), known);
        var middle = fit.Correction.Predict(fit.Correction.Origin);
        Assert.Equal(Math.Sqrt((0.0001 / 4) + 0.0001 + 0.0009), middle.StandardUncertainty, 12);
        // The slope knows nothing of the common offset (JCGM 100:2008, H.3.6).
        var alone = ScaleFit.Of(Straight(own: 0.02), known with { Common = CommonOffset.None });
        Assert.Equal(alone.Correction.Slope, fit.Correction.Slope);
        Assert.Equal(alone.Correction.FromDiscs.Slope, fit.Correction.FromDiscs.Slope);
    }

    /// <summary>Steps of 0.06 mm hide 0.06²/6 = 0.0006 mm²; the scatter shows 0.0002 of it, 0.0004 stays hidden.</summary>
    [Fact]
    public void Steps_count_as_far_as_the_scatter_does_not_show_them()
    {
        var coarse = ScaleFit.Of(Straight(), Nothing with { Resolution = new Micrometres(60) });
        Assert.Equal(0.0004, coarse.HiddenVariance, 12);
        Assert.Equal(0.0004 / 4, coarse.Correction.FromDiscs.Intercept, 12);
        Assert.Equal(0, ScaleFit.Of(Straight(), Nothing with { Resolution = new Micrometres(20) }).HiddenVariance);
    }

    [Fact]
    public void A_budget_names_every_contribution_and_adds_up()
    {
        var known = new KnownBefore(new Micrometres(60), 0.004, new CommonOffset(0.003, 12));
        var fit = ScaleFit.Of(Straight(own: 0.002), known);
        var budget = fit.Budget(6);
        Assert.Equal(Enum.GetValues<ContributionKind>(), budget.Contributions.Select(part => part.Kind));
        Assert.All(budget.Contributions, part => Assert.True(part.StandardUncertaintyMillimetres > 0));
        var line = fit.Correction.Predict(6);
        Assert.Equal(
            Math.Sqrt(Math.Pow(line.StandardUncertainty, 2) + 0.0002 + 0.0004),
            budget.StandardUncertaintyMillimetres,
            12
        );
        Assert.Equal(2 * budget.StandardUncertaintyMillimetres, budget.ExpandedForFactor2Millimetres, 12);
        Assert.Equal(
            Quantiles.StudentT(budget.DegreesOfFreedom) * budget.StandardUncertaintyMillimetres,
            budget.ExpandedFor95Millimetres,
            12
        );
        var (mean, one) = (fit.Budget(6, 4), budget);
        Assert.Equal(Part(one) / 2, Part(mean), 12);

        static double Part(UncertaintyBudget of) =>
            of.Contributions.Single(p => p.Kind == ContributionKind.Repeatability).StandardUncertaintyMillimetres;
    }

    [Fact]
    public void A_scale_that_is_not_straight_is_told_and_its_line_is_as_uncertain_as_its_means_lie_off_it()
    {
        DiscReading[] bent = [.. Readings([2, 3, 4, 5, 6, 7, 8], d => d + (0.02 * (d - 5) * (d - 5)), 0.001)];
        var fit = ScaleFit.Of(bent, Nothing);
        Assert.True(fit.Check.IsBent);
        Assert.True(fit.Check.ChanceOfF < 0.001);
        Assert.Equal(5, fit.Correction.DegreesOfFreedom);
        Assert.True(fit.Correction.Straightness.IsFromReadings);
        Assert.InRange(fit.Correction.Straightness.StandardUncertainty, 0.05, 0.12);
        // Said beforehand, it surprises nobody.
        Assert.False(ScaleFit.Of(bent, Nothing with { StraightnessMillimetres = 0.08 }).Check.IsBent);
    }

    [Theory]
    [InlineData(StatisticsFault.TooFew, new[] { 2.0, 8.0 }, 2.0, 8.0)]
    [InlineData(StatisticsFault.TwoPlacesOnly, new[] { 2.0, 2.05, 8.0 }, 2.0, 8.0)]
    [InlineData(StatisticsFault.NoVariation, new[] { 2.0, 4.0, 8.0 }, 4.0, 4.1)]
    public void What_cannot_calibrate_is_refused(StatisticsFault fault, double[] discs, double from, double to)
    {
        var readings = Readings(discs, d => from + ((d - 2) / 6 * (to - from)), 0.01).ToArray();
        Assert.Equal(fault, Assert.Throws<StatisticsRefusedException>(() => ScaleFit.Of(readings, Nothing)).Fault);
    }

    [Fact]
    public void Discs_that_were_mixed_up_are_refused_by_name()
    {
        var readings = Readings(
                [2, 4, 5, 8],
                d =>
                    d is 4 ? 5
                    : d is 5 ? 4
                    : d,
                0.01
            )
            .ToArray();
        var refused = Assert.Throws<StatisticsRefusedException>(() => ScaleFit.Of(readings, Nothing));
        Assert.Equal(StatisticsFault.OutOfOrder, refused.Fault);
        Assert.Contains("d4", refused.Message, StringComparison.Ordinal);
        Assert.Contains("d5", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_disc_that_was_read_once_is_refused_by_name()
    {
        DiscReading[] readings = [.. Straight(), new(new Disc("late", 7, 0), 7)];
        var refused = Assert.Throws<StatisticsRefusedException>(() => ScaleFit.Of(readings, Nothing));
        Assert.Equal(StatisticsFault.TooFewRepeats, refused.Fault);
        Assert.Contains("late", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_disc_that_the_scale_cannot_show_is_refused_by_name()
    {
        var set = new DiscSet
        {
            Name = "Quay discs",
            CertificateNumber = "QD-17",
            CertifiedBy = "Quayside gauge room",
            Certified = new DateOnly(2026, 3, 1),
            Expires = null,
            CommonUncertaintyMillimetres = 0,
            Discs = [new("small", 2, 0), new("middle", 8, 0), new("wide", 12.001, 0)],
        };
        var refused = Assert.Throws<StatisticsRefusedException>(() =>
            ScaleReadings.CheckRange(set, new Micrometres(12_000))
        );
        Assert.Equal(StatisticsFault.OutOfRange, refused.Fault);
        Assert.Contains("wide", refused.Message, StringComparison.Ordinal);
        ScaleReadings.CheckRange(set, new Micrometres(12_001));
    }

    private static DiscReading[] Straight(double own = 0) =>
        [.. Readings([2, 4, 6, 8], d => d - 0.1 + (0.01 * (d - 5)), 0.01, own)];

    private static IEnumerable<DiscReading> Readings(
        double[] discs,
        Func<double, double> indicated,
        double scatter,
        double own = 0
    ) =>
        discs.SelectMany(d =>
        {
            var disc = new Disc($"d{d}", d, own);
            return new DiscReading[] { new(disc, indicated(d) - scatter), new(disc, indicated(d) + scatter) };
        });
}
