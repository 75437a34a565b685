using PupilBridge.Exams.Statistics;
using PupilBridge.Exams.Statistics.Agreement;

namespace PupilBridge.Exams.Tests.Statistics.Agreement;

/// <summary>
/// Bland JM, Altman DG, Lancet 1986;i:307-310. "Published" values were read in a transcript and in a test suite written from
/// the paper; the longer ones were computed from the data by another program.
/// </summary>
public sealed class LimitsOfAgreementTests
{
    private static readonly PairedReadings Pairs = PairedReadings.Of(PeakFlow.Wright1, PeakFlow.Mini1);

    [Fact]
    public void Bias_and_scatter_are_the_published_ones()
    {
        var limits = LimitsOfAgreement.Of(Pairs);
        Assert.Equal(17, limits.Count);
        Assert.Equal(-2.1, limits.Bias, 1);
        Assert.Equal(-2.1176470588, limits.Bias, 10);
        Assert.Equal(38.8, limits.StandardDeviation, 1);
        Assert.Equal(38.7651298736, limits.StandardDeviation, 10);
        Assert.Equal(9.4, limits.StandardErrorOfBias, 1);
        Assert.Equal(9.4019250035, limits.StandardErrorOfBias, 10);
    }

    /// <summary>Published: −79.7 and 75.5, from the rounded −2.1 and 38.8; without rounding −79.6479 and 75.4126.</summary>
    [Fact]
    public void Limits_with_the_factor_of_1986()
    {
        var limits = LimitsOfAgreement.Of(Pairs, 2);
        Assert.Equal(-79.6479, limits.Low, 4);
        Assert.Equal(75.4126, limits.High, 4);
        Assert.Equal(-79.7, Math.Round(limits.Bias, 1) - (2 * Math.Round(limits.StandardDeviation, 1)), 10);
        Assert.Equal(75.5, Math.Round(limits.Bias, 1) + (2 * Math.Round(limits.StandardDeviation, 1)), 10);
    }

    [Fact]
    public void Limits_with_the_usual_factor()
    {
        var limits = LimitsOfAgreement.Of(Pairs);
        Assert.Equal(-78.0973, limits.Low, 4);
        Assert.Equal(73.8620, limits.High, 4);
        // The test suite that was read has ten digits of the normal factor.
        var exact = LimitsOfAgreement.Of(Pairs, 1.959963985);
        Assert.Equal(-78.0959054849, exact.Low, 10);
        Assert.Equal(73.8606113673, exact.High, 10);
    }

    /// <summary>Published: −22.0 to 17.8; lower limit −114.3 to −45.1, upper 40.9 to 110.1, both from rounded values.</summary>
    [Fact]
    public void Intervals_are_the_published_ones()
    {
        var limits = LimitsOfAgreement.Of(Pairs, 2);
        Assert.Equal(-22.0488376966, limits.BiasInterval.Low, 9);
        Assert.Equal(17.8135435790, limits.BiasInterval.High, 9);
        Assert.Equal(-22.0, limits.BiasInterval.Low, 1);
        Assert.Equal(17.8, limits.BiasInterval.High, 1);
        Assert.Equal(16.3, limits.StandardErrorOfLimit, 1);
        Assert.Equal(16.2846, limits.StandardErrorOfLimit, 4);
        Assert.Equal(-114.1697, limits.LowInterval.Low, 4);
        Assert.Equal(-45.1261, limits.LowInterval.High, 4);
        Assert.Equal(40.8908, limits.HighInterval.Low, 4);
        Assert.Equal(109.9344, limits.HighInterval.High, 4);
    }

    /// <summary>With the usual factor the standard error of a limit is 1.71·s/√n (Bland &amp; Altman 1999, from memory).</summary>
    [Fact]
    public void The_error_of_a_limit_follows_the_factor()
    {
        var limits = LimitsOfAgreement.Of(Pairs);
        Assert.Equal(1.71, limits.StandardErrorOfLimit / limits.StandardErrorOfBias, 2);
    }

    [Fact]
    public void Readings_that_always_differ_by_the_same_are_refused()
    {
        double[] one = [3.1, 4.2, 5.3, 6.4];
        double[] other = [3.0, 4.1, 5.2, 6.3];
        var refusal = Assert.Throws<StatisticsRefusedException>(() =>
            LimitsOfAgreement.Of(PairedReadings.Of(one, other))
        );
        Assert.Equal(StatisticsFault.NoVariation, refusal.Fault);
    }

    [Theory]
    [InlineData(new double[0], new double[0], StatisticsFault.TooFew)]
    [InlineData(new[] { 1.0 }, new[] { 2.0 }, StatisticsFault.TooFew)]
    [InlineData(new[] { 1.0, 2 }, new[] { 2.0 }, StatisticsFault.UnequalLengths)]
    [InlineData(new[] { 1.0, double.NaN }, new[] { 2.0, 3 }, StatisticsFault.NotANumber)]
    [InlineData(new[] { 1.0, 2 }, new[] { 2.0, double.PositiveInfinity }, StatisticsFault.NotANumber)]
    public void Pairs_that_are_none_are_refused(double[] one, double[] other, StatisticsFault fault) =>
        Assert.Equal(fault, Assert.Throws<StatisticsRefusedException>(() => PairedReadings.Of(one, other)).Fault);

    /// <summary>Swapping the two ways mirrors the limits.</summary>
    [Fact]
    public void The_order_of_the_two_ways_decides_the_sign_alone()
    {
        var limits = LimitsOfAgreement.Of(Pairs);
        var swapped = LimitsOfAgreement.Of(PairedReadings.Of(PeakFlow.Mini1, PeakFlow.Wright1));
        Assert.Equal(-limits.Low, swapped.High, 12);
        Assert.Equal(-limits.High, swapped.Low, 12);
    }
}
