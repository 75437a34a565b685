using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Tests.Statistics;

/// <summary>The factors between a standard uncertainty and an interval.</summary>
public sealed class QuantilesTests
{
    /// <summary>
    /// JCGM 100:2008, Table G.2: two decimals as printed (computed anew, and as the printed table is remembered), and the
    /// factor for 95 % to six decimals, computed by another program. GUM prints 235.80 for the last of the first row; its
    /// level is three standard deviations, 99.7300204 %.
    /// </summary>
    public static TheoryData<int, double[], double> TableG2 =>
        new()
        {
            { 1, [1.84, 6.31, 12.71, 13.97, 63.66, 235.78], 12.706205 },
            { 2, [1.32, 2.92, 4.30, 4.53, 9.92, 19.21], 4.302653 },
            { 3, [1.20, 2.35, 3.18, 3.31, 5.84, 9.22], 3.182446 },
            { 4, [1.14, 2.13, 2.78, 2.87, 4.60, 6.62], 2.776445 },
            { 5, [1.11, 2.02, 2.57, 2.65, 4.03, 5.51], 2.570582 },
            { 6, [1.09, 1.94, 2.45, 2.52, 3.71, 4.90], 2.446912 },
            { 7, [1.08, 1.89, 2.36, 2.43, 3.50, 4.53], 2.364624 },
            { 8, [1.07, 1.86, 2.31, 2.37, 3.36, 4.28], 2.306004 },
            { 9, [1.06, 1.83, 2.26, 2.32, 3.25, 4.09], 2.262157 },
            { 10, [1.05, 1.81, 2.23, 2.28, 3.17, 3.96], 2.228139 },
            { 11, [1.05, 1.80, 2.20, 2.25, 3.11, 3.85], 2.200985 },
            { 12, [1.04, 1.78, 2.18, 2.23, 3.05, 3.76], 2.178813 },
            { 13, [1.04, 1.77, 2.16, 2.21, 3.01, 3.69], 2.160369 },
            { 14, [1.04, 1.76, 2.14, 2.20, 2.98, 3.64], 2.144787 },
            { 15, [1.03, 1.75, 2.13, 2.18, 2.95, 3.59], 2.131450 },
            { 16, [1.03, 1.75, 2.12, 2.17, 2.92, 3.54], 2.119905 },
            { 17, [1.03, 1.74, 2.11, 2.16, 2.90, 3.51], 2.109816 },
            { 18, [1.03, 1.73, 2.10, 2.15, 2.88, 3.48], 2.100922 },
            { 19, [1.03, 1.73, 2.09, 2.14, 2.86, 3.45], 2.093024 },
            { 20, [1.03, 1.72, 2.09, 2.13, 2.85, 3.42], 2.085963 },
            { 25, [1.02, 1.71, 2.06, 2.11, 2.79, 3.33], 2.059539 },
            { 30, [1.02, 1.70, 2.04, 2.09, 2.75, 3.27], 2.042272 },
            { 40, [1.01, 1.68, 2.02, 2.06, 2.70, 3.20], 2.021075 },
            { 50, [1.01, 1.68, 2.01, 2.05, 2.68, 3.16], 2.008559 },
            { 100, [1.01, 1.66, 1.98, 2.03, 2.63, 3.08], 1.983972 },
        };

    [Theory]
    [MemberData(nameof(TableG2))]
    public void Students_t_is_the_printed_table(int degreesOfFreedom, double[] printed, double at95)
    {
        double[] levels = [0.6827, 0.90, 0.95, 0.9545, 0.99, 0.9973];
        Assert.Equal(
            printed,
            levels.Select(level =>
                Math.Round(Quantiles.StudentT(degreesOfFreedom, level), 2, MidpointRounding.AwayFromZero)
            )
        );
        Assert.Equal(at95, Quantiles.StudentT(degreesOfFreedom), 6);
    }

    /// <summary>One and two degrees of freedom have closed forms: tan(πp/2), and p·√(2/(1−p²)).</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.95)]
    [InlineData(0.9999)]
    public void Where_students_t_has_a_closed_form_it_is_met(double level)
    {
        Assert.Equal(1, Quantiles.StudentT(1, level) / Math.Tan(Math.PI * level / 2), 11);
        Assert.Equal(1, Quantiles.StudentT(2, level) / (level * Math.Sqrt(2 / (1 - (level * level)))), 11);
    }

    /// <summary>z for 95 % is 1.959963984540054 (computed by another program); t − z falls as 1/ν.</summary>
    [Theory]
    [InlineData(1e3)]
    [InlineData(1e4)]
    [InlineData(1e6)]
    [InlineData(1e9)]
    [InlineData(1e300)]
    [InlineData(double.PositiveInfinity)]
    public void Towards_many_degrees_of_freedom_it_becomes_the_normal_factor(double degreesOfFreedom)
    {
        const double z = 1.959963984540054;
        var beyond = Quantiles.StudentT(degreesOfFreedom) - z;
        var first = (Math.Pow(z, 3) + z) / 4 / degreesOfFreedom;
        Assert.InRange(beyond - first, -1e-14, 4 / (degreesOfFreedom * degreesOfFreedom) + 1e-14);
    }

    [Fact]
    public void The_two_ways_to_the_factor_meet_where_one_takes_over() =>
        Assert.InRange(Quantiles.StudentT(9999.999999) - Quantiles.StudentT(10000), -1e-11, 1e-11);

    [Theory]
    [InlineData(0.3)]
    [InlineData(1.7)]
    [InlineData(9.4)]
    public void Degrees_of_freedom_need_not_be_whole(double degreesOfFreedom) =>
        Assert.InRange(
            Quantiles.StudentT(degreesOfFreedom),
            Quantiles.StudentT(Math.Ceiling(degreesOfFreedom)),
            degreesOfFreedom < 1 ? double.MaxValue : Quantiles.StudentT(Math.Floor(degreesOfFreedom))
        );

    [Theory]
    [InlineData(0, 0.95)]
    [InlineData(-1, 0.95)]
    [InlineData(double.NaN, 0.95)]
    [InlineData(5, 0)]
    [InlineData(5, 1)]
    [InlineData(5, double.NaN)]
    public void Impossible_degrees_of_freedom_and_levels_are_refused(double degreesOfFreedom, double level) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Quantiles.StudentT(degreesOfFreedom, level));

    /// <summary>Two quantiles of F(9, 40), computed by another program beside JCGM 100:2008, H.5.</summary>
    [Fact]
    public void The_f_ratio_of_the_guides_analysis_of_variance()
    {
        Assert.Equal(2.12403, Quantiles.F(9, 40, 0.95), 5);
        Assert.Equal(2.45194, Quantiles.F(9, 40, 0.975), 5);
        Assert.Equal(0.05, Quantiles.ChanceOfF(9, 40, Quantiles.F(9, 40, 0.95)), 8);
        Assert.Equal(0, Quantiles.ChanceOfF(9, 40, double.PositiveInfinity));
    }
}
