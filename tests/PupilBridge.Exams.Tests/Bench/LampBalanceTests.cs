using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench;

/// <summary>The right lamp against the left one.</summary>
public sealed class LampBalanceTests
{
    /// <summary>
    /// Twice the light is log10 2 = 0.30103 log units. Readings ±1 % scatter by √2 %, of the mean of two 1 %; two such means, in log
    /// units √2 · 0.01 / ln 10, with 1 degree of freedom each: 2 together.
    /// </summary>
    [Fact]
    public void Twice_the_light_is_three_tenths_of_a_log_unit()
    {
        var balance = LampBalance.Of(Lux([198, 202], [99, 101]), 0);
        Assert.Equal(0.30103, balance.LogUnits, 5);
        Assert.Equal(Math.Sqrt(2) * 0.01 / Math.Log(10), balance.StandardUncertaintyLogUnits, 12);
        Assert.Equal(2, balance.DegreesOfFreedom, 9);
        Assert.Equal(4.302653 * balance.StandardUncertaintyLogUnits, balance.ExpandedFor95LogUnits, 6);
        Assert.Equal(LimitVerdict.Above, balance.Against(0.1));
    }

    [Fact]
    public void What_is_right_and_what_is_left_changes_the_sign() =>
        Assert.Equal(
            -LampBalance.Of(Lux([200, 200.1], [150, 150.1]), 0.1).LogUnits,
            LampBalance.Of(Lux([150, 150.1], [200, 200.1]), 0.1).LogUnits,
            12
        );

    [Fact]
    public void Readings_that_scatter_cannot_tell() =>
        Assert.Equal(LimitVerdict.CannotTell, LampBalance.Of(Lux([100, 130], [95, 120]), 1).Against(0.1));

    [Fact]
    public void The_meters_step_counts_where_readings_do_not_scatter()
    {
        var balance = LampBalance.Of(Lux([100, 100], [100, 100]), 6);
        Assert.Equal(Math.Sqrt(2) * 6 / Math.Sqrt(12) / 100 / Math.Log(10), balance.StandardUncertaintyLogUnits, 12);
        Assert.Equal(LimitVerdict.Within, balance.Against(0.1));
    }

    [Theory]
    [InlineData(new[] { 100.0 }, StatisticsFault.TooFew)]
    [InlineData(new[] { 100.0, 0 }, StatisticsFault.NotANumber)]
    [InlineData(new[] { 100.0, -3 }, StatisticsFault.NotANumber)]
    [InlineData(new[] { 100.0, double.NaN }, StatisticsFault.NotANumber)]
    [InlineData(new[] { 100.0, double.PositiveInfinity }, StatisticsFault.NotANumber)]
    public void Readings_that_tell_nothing_are_refused(double[] right, StatisticsFault fault) =>
        Assert.Equal(
            fault,
            Assert.Throws<StatisticsRefusedException>(() => LampBalance.Of(Lux(right, [100, 100]), 1)).Fault
        );

    private static PerEye<IReadOnlyList<double>> Lux(double[] right, double[] left) =>
        new() { Right = right, Left = left };
}
