using PupilBridge.Constructed.Published;
using PupilBridge.Exams.Calibration;

namespace PupilBridge.Exams.Tests.Calibration;

/// <summary>Prediction with its uncertainty: JCGM 100:2008, H.3.4 and H.3.6, and coverage of simulated truth.</summary>
public sealed class CalibrationLineTests
{
    private static readonly LineFit Fit = LineFit.Of(Thermometer.Points, Thermometer.Origin);

    /// <summary>Published: b(30 °C) = −0.1494 °C with u = 0.0041 °C; 8.277 and 9.362 mK computed by another program.</summary>
    [Fact]
    public void The_thermometers_correction_at_thirty_degrees()
    {
        var at30 = new CalibrationLine(Fit, CommonOffset.None).Predict(30);
        Assert.Equal(-0.1494, at30.Y, 4);
        Assert.Equal(0.0041, at30.StandardUncertainty, 4);
        Assert.Equal(-0.149376812732, at30.Y, 12);
        Assert.Equal(0.004138595753, at30.StandardUncertainty, 12);
        Assert.Equal(9, at30.DegreesOfFreedom, 12);
        Assert.Equal(2.262157, at30.FactorFor95, 6);
        Assert.Equal(0.008277, at30.ExpandedForFactor2, 6);
        Assert.Equal(0.009362, at30.ExpandedFor95, 6);
    }

    /// <summary>H.3.6, as read in a reproduction: u = 0.005 °C common to all makes y1 less certain; y2 and its u stay.</summary>
    [Fact]
    public void An_error_common_to_all_corrections_touches_the_intercept_alone()
    {
        var alone = new CalibrationLine(Fit, CommonOffset.None);
        var line = new CalibrationLine(Fit, new CommonOffset(0.005));
        Assert.Equal(Math.Sqrt(Math.Pow(0.002877597835, 2) + Math.Pow(0.005, 2)), line.InterceptUncertainty, 11);
        Assert.Equal(0.000667938773228, line.Fit.SlopeUncertainty, 15);
        // The covariance stays, so the correlation weakens with the intercept's growing uncertainty.
        Assert.Equal(1, line.Correlation * line.InterceptUncertainty * Fit.SlopeUncertainty / Fit.Covariance, 12);
        var (before, after) = (alone.Predict(30), line.Predict(30));
        Assert.Equal(before.Y, after.Y);
        Assert.Equal(Math.Sqrt(Math.Pow(0.004138595753, 2) + Math.Pow(0.005, 2)), after.StandardUncertainty, 11);
    }

    /// <summary>u⁴ / (u₁⁴/9 + u₂⁴/ν₂), by hand from JCGM 100:2008, G.4.1.</summary>
    [Theory]
    [InlineData(double.PositiveInfinity)]
    [InlineData(50)]
    [InlineData(2)]
    public void Effective_degrees_of_freedom_follow_both_contributions(double ofCommon)
    {
        var after = new CalibrationLine(Fit, new CommonOffset(0.005, ofCommon)).Predict(30);
        var (first, second) = (Math.Pow(0.004138595753, 2), Math.Pow(0.005, 2));
        var expected = Math.Pow(first + second, 2) / ((first * first / 9) + (second * second / ofCommon));
        Assert.Equal(1, after.DegreesOfFreedom / expected, 9);
    }

    [Fact]
    public void Without_any_scatter_a_common_offset_is_all_and_its_factor_is_the_normal_one()
    {
        var fit = LineFit.Of([new(1, 0), new(2, 0), new(4, 0)]);
        var at3 = new CalibrationLine(fit, new CommonOffset(0.01)).Predict(3);
        Assert.Equal(0.01, at3.StandardUncertainty, 15);
        Assert.Equal(1.959964, at3.FactorFor95, 6);
        Assert.Equal(0, new CalibrationLine(fit, new CommonOffset(0.01)).Correlation);
    }

    [Theory]
    [InlineData(-0.001, 5)]
    [InlineData(double.NaN, 5)]
    [InlineData(0.01, 0)]
    [InlineData(0.01, double.NaN)]
    public void An_impossible_common_offset_is_refused(double uncertainty, double degreesOfFreedom) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new CalibrationLine(Fit, new CommonOffset(uncertainty, degreesOfFreedom))
        );

    /// <summary>
    /// Simulated calibrations with a known line: the interval for 95 % must hold the truth that often. With 10,000 of them
    /// chance allows about ±0.7 % at three standard deviations.
    /// </summary>
    [Theory]
    [InlineData(3, 1, 0.0)]
    [InlineData(5, 3, 0.0)]
    [InlineData(12, 3, 0.0)]
    [InlineData(5, 3, 0.01)]
    public void The_interval_holds_the_truth_as_often_as_it_says(int discs, int repeats, double common)
    {
        var random = new Random(20261125);
        const int runs = 10_000;
        var held = 0;
        for (var run = 0; run < runs; run++)
        {
            var offset = common * Normal(random);
            var points =
                from disc in Enumerable.Range(0, discs)
                from _ in Enumerable.Range(0, repeats)
                let x = 2 + (6.0 * disc / (discs - 1))
                select new CalibrationPoint(x, 0.05 - (0.004 * x) + offset + (0.02 * Normal(random)));
            var line = new CalibrationLine(LineFit.Of([.. points], 5), new CommonOffset(common));
            var at = line.Predict(7.3);
            held += Math.Abs(at.Y - (0.05 - (0.004 * 7.3))) <= at.ExpandedFor95 ? 1 : 0;
        }

        Assert.InRange(held / (double)runs, 0.943, 0.957);
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
