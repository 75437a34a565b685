using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Tests.Calibration;

/// <summary>Whether a scale is straight, on readings small enough to work out by hand.</summary>
public sealed class LackOfFitTests
{
    /// <summary>
    /// Discs at 1, 2, 3 with means 1, 3, 2 (repeats ±1): the line through the means is 1 + x/2, means lie −½, +1, −½ off it:
    /// 2·(¼ + 1 + ¼) = 3 with 1 degree of freedom; repeats: 6·1 = 6 with 3. F = 3/2.
    /// </summary>
    [Fact]
    public void Means_and_repeats_divide_what_the_line_leaves()
    {
        CalibrationPoint[][] discs =
        [
            [new(1, 0), new(1, 2)],
            [new(2, 2), new(2, 4)],
            [new(3, 1), new(3, 3)],
        ];
        var fit = LineFit.Of([.. discs.SelectMany(disc => disc)]);
        var lack = LackOfFit.Of(fit, discs);
        Assert.Equal(3, lack.OfMeans, 12);
        Assert.Equal(1, lack.DegreesOfMeans);
        Assert.Equal(2, lack.OfRepeats, 12);
        Assert.Equal(3, lack.DegreesOfRepeats);
        Assert.Equal(1.5, lack.F, 12);
        Assert.Equal(Math.Sqrt(2), lack.Repeatability, 12);
        Assert.Equal(fit.SquaresOfResiduals, lack.OfMeans + (3 * lack.OfRepeats), 12);
    }

    /// <summary>F with 1 and ν degrees of freedom is the square of Student's t with ν.</summary>
    [Fact]
    public void The_chance_of_the_ratio_is_that_of_students_t() =>
        Assert.Equal(0.05, new LackOfFit(Math.Pow(Quantiles.StudentT(3), 2), 1, 1, 3).ChanceOfF, 12);

    [Fact]
    public void A_bent_scale_is_told_from_a_straight_one()
    {
        CalibrationPoint[][] straight = [.. Discs(x => 0.01 * x)];
        CalibrationPoint[][] bent = [.. Discs(x => 0.05 * (x - 4) * (x - 4))];
        Assert.True(LackOfFit.Of(LineFit.Of([.. straight.SelectMany(d => d)]), straight).ChanceOfF > 0.5);
        Assert.True(LackOfFit.Of(LineFit.Of([.. bent.SelectMany(d => d)]), bent).ChanceOfF < 0.001);
    }

    [Fact]
    public void Discs_without_repeats_cannot_be_compared()
    {
        CalibrationPoint[][] discs =
        [
            [new(1, 0)],
            [new(2, 1)],
            [new(3, 1)],
        ];
        var fit = LineFit.Of([.. discs.SelectMany(disc => disc)]);
        Assert.Equal(
            StatisticsFault.TooFew,
            Assert.Throws<StatisticsRefusedException>(() => LackOfFit.Of(fit, discs)).Fault
        );
    }

    private static IEnumerable<CalibrationPoint[]> Discs(Func<double, double> correction) =>
        ((double[])[2, 3, 4, 5, 6]).Select(x =>
            new CalibrationPoint[] { new(x, correction(x) - 0.01), new(x, correction(x)), new(x, correction(x) + 0.01) }
        );
}
