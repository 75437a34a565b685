using PupilBridge.Exams.Bench;

namespace PupilBridge.Exams.Tests.Bench;

/// <summary>Whether a scale drifts.</summary>
public sealed class DriftChartTests
{
    private const double Limit = 0.1;
    private static readonly double[] Usual = [0.010, 0.014, 0.009, 0.012, 0.011, 0.008, 0.013, 0.011];

    /// <summary>Mean 0.011; distances 4, 5, 3, 1, 3, 5, 2 µm, their mean 23/7 µm; three times it by 1.128.</summary>
    [Fact]
    public void Limits_come_from_the_distances_of_neighbours()
    {
        var chart = DriftChart.Of(Daily(Usual));
        Assert.NotNull(chart);
        Assert.Equal(0.011, chart.Centre, 12);
        Assert.Equal(3 * 0.023 / 7 / 1.128, chart.HalfWidth, 12);
    }

    [Fact]
    public void As_usual_is_no_news() =>
        Assert.Equal(DriftState.AsUsual, DriftChart.StateOf(Daily([.. Usual, 0.012]), Limit, 30));

    [Fact]
    public void A_step_outside_is_a_warning_before_the_limit_is_reached() =>
        Assert.Equal(DriftState.Warning, DriftChart.StateOf(Daily([.. Usual, 0.030]), Limit, 30));

    [Fact]
    public void Beyond_the_limit_is_told_even_with_a_single_point() =>
        Assert.Equal(DriftState.BeyondLimit, DriftChart.StateOf(Daily([-0.101]), Limit, 30));

    [Fact]
    public void Few_points_say_nothing_of_what_is_usual() =>
        Assert.Equal(DriftState.TooFewPoints, DriftChart.StateOf(Daily([.. Usual.Take(7)]), Limit, 30));

    /// <summary>1 µm a day about the middle of wide limits: 30 days on it is beyond 0.1 mm, 5 days on it is not.</summary>
    [Theory]
    [InlineData(30, DriftState.Warning)]
    [InlineData(5, DriftState.AsUsual)]
    public void A_steady_drift_warns_when_the_limit_is_near(int horizonDays, DriftState state)
    {
        double[] noisy = [0.05, 0.09, 0.05, 0.09, 0.05, 0.09, 0.05, 0.09];
        double[] drifting = [.. Enumerable.Range(0, 8).Select(day => 0.070 + (0.001 * day) + (0.0002 * (day % 2)))];
        Assert.Equal(state, DriftChart.StateOf(Daily([.. noisy, .. drifting]), Limit, horizonDays));
    }

    [Fact]
    public void Scatter_that_could_as_well_be_level_reaches_nothing() =>
        Assert.False(DriftForecast.Reaches(Daily([0.02, 0.05, 0.03, 0.06, 0.02, 0.05, 0.03, 0.06]), Limit, 365));

    private static DriftPoint[] Daily(double[] values) =>
        [.. values.Select((value, day) => new DriftPoint(new DateOnly(2026, 5, 1).AddDays(day), value, true))];
}
