using PupilBridge.Exams.Statistics;
using PupilBridge.Exams.Statistics.Agreement;

namespace PupilBridge.Exams.Tests.Statistics.Agreement;

/// <summary>
/// Bland JM, Altman DG, Lancet 1986;i:307-310, both meters read twice. The paper's 43.2 and 56.4 are twice the rounded 21.6
/// and 28.2, and known from memory; the longer values were computed from the data by another program. With 1.96 in place of
/// 2, as in the same authors' paper of 1999, they are 42.43 and 55.19.
/// </summary>
public sealed class RepeatabilityTests
{
    private static readonly PairedReadings Wright = PairedReadings.Of(PeakFlow.Wright1, PeakFlow.Wright2);
    private static readonly PairedReadings Mini = PairedReadings.Of(PeakFlow.Mini1, PeakFlow.Mini2);

    [Fact]
    public void The_published_coefficients_come_out()
    {
        var wright = Repeatability.Of(Wright, 2);
        Assert.Equal(15.3067, wright.WithinSubjectDeviation, 4);
        Assert.Equal(43.2938, wright.Coefficient, 4);
        Assert.Equal(43.2, 2 * Math.Round(Math.Sqrt(2) * wright.WithinSubjectDeviation, 1), 10);
        var mini = Repeatability.Of(Mini, 2);
        Assert.Equal(56.4, 2 * Math.Round(Math.Sqrt(2) * mini.WithinSubjectDeviation, 1), 10);
    }

    [Fact]
    public void The_coefficients_with_the_usual_factor_come_out()
    {
        Assert.Equal(42.43, Repeatability.Of(Wright).Coefficient, 2);
        Assert.Equal(55.19, Repeatability.Of(Mini).Coefficient, 2);
    }

    /// <summary>ISO 5725: r = 2.8·s, where 2.8 stands for 1.96·√2 = 2.7719 (read in a reproduction).</summary>
    [Fact]
    public void The_factor_between_the_two_is_that_of_the_standard()
    {
        var wright = Repeatability.Of(Wright);
        Assert.Equal(2.7719, wright.Coefficient / wright.WithinSubjectDeviation, 4);
    }

    /// <summary>χ² with 17 degrees of freedom: 7.564 and 30.191 (printed tables, from memory).</summary>
    [Fact]
    public void The_interval_comes_from_chi_squared()
    {
        var wright = Repeatability.Of(Wright);
        var s = wright.WithinSubjectDeviation;
        Assert.Equal(s * Math.Sqrt(17 / 30.191), wright.WithinSubjectInterval.Low, 3);
        Assert.Equal(s * Math.Sqrt(17 / 7.564), wright.WithinSubjectInterval.High, 3);
    }

    [Fact]
    public void Second_readings_that_differ_as_a_whole_are_told()
    {
        Assert.False(Repeatability.Of(Wright).HasShifted);
        Assert.True(Repeatability.Of(PairedReadings.Of([1, 2, 3, 4], [1.9, 3.1, 3.9, 5.1])).HasShifted);
    }

    [Fact]
    public void Repeats_that_are_copies_are_refused() =>
        Assert.Equal(
            StatisticsFault.NoVariation,
            Assert
                .Throws<StatisticsRefusedException>(() => Repeatability.Of(PairedReadings.Of([3, 4, 5], [3, 4, 5])))
                .Fault
        );
}
