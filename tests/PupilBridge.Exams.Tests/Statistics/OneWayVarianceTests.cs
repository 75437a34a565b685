using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Tests.Statistics;

/// <summary>
/// JCGM 100:2008, H.5: a Zener standard read five times on each of ten days, in µV above 10 V. Data and results read in a
/// metrology test suite that cites Table H.9; further digits computed by another program.
/// </summary>
public sealed class OneWayVarianceTests
{
    private static readonly double[] Means = [172, 116, 13, 144, 106, 31, 60, 125, 163, 41];
    private static readonly double[] Deviations = [60, 77, 111, 101, 67, 93, 80, 73, 88, 86];

    private static readonly OneWayVariance Zener = OneWayVariance.Of([
        .. Means.Zip(Deviations, (mean, deviation) => new Sample(5, mean, 4 * deviation * deviation)),
    ]);

    [Fact]
    public void The_published_components_come_out()
    {
        Assert.Equal(97.1, Zener.Mean, 10);
        Assert.Equal(57.0895, Math.Sqrt(Zener.Between / 5 / 9), 4);
        Assert.Equal(85, Zener.WithinDeviation, 0);
        Assert.Equal(84.887, Zener.WithinDeviation, 3);
        Assert.Equal(128, Zener.BetweenEstimate, 0);
        Assert.Equal(127.656, Zener.BetweenEstimate, 3);
        // The guide computes F from its rounded 57 and 85.
        Assert.Equal(2.25, 5 * 57 * 57 / (85.0 * 85), 2);
        Assert.Equal(2.2615, Zener.F, 4);
        Assert.Equal(43, Zener.BetweenDeviation, 0);
        Assert.Equal(42.639, Zener.BetweenDeviation, 3);
        Assert.Equal((9, 40), (Zener.DegreesBetween, Zener.DegreesWithin));
    }

    /// <summary>Published: u = 18 µV with an effect of the day, 13 µV without.</summary>
    [Fact]
    public void The_uncertainty_of_the_mean_with_and_without_an_effect_of_the_day()
    {
        Assert.Equal(18.053, Math.Sqrt(Zener.Between / 5 / 9 / 10), 3);
        Assert.Equal(13.323, Math.Sqrt((Zener.Within + Zener.Between) / 49 / 50), 3);
    }

    /// <summary>Published: F is beyond 2.12 (5 %) and within 2.45 (2.5 %).</summary>
    [Fact]
    public void The_chance_of_the_ratio_lies_between_the_published_levels() =>
        Assert.InRange(Zener.ChanceOfF, 0.025, 0.05);

    [Fact]
    public void Groups_that_differ_less_than_their_readings_have_no_deviation_of_their_own()
    {
        var alike = OneWayVariance.Of([Sample.Of([1, 3]), Sample.Of([1, 3, 2]), Sample.Of([2, 2])]);
        Assert.Equal(0, alike.BetweenDeviation);
        Assert.Equal(2, alike.Mean, 12);
    }

    [Fact]
    public void Groups_without_repeats_are_refused() =>
        Assert.Equal(
            StatisticsFault.TooFew,
            Assert.Throws<StatisticsRefusedException>(() => OneWayVariance.Of([Sample.Of([1]), Sample.Of([2])])).Fault
        );
}
