using CsCheck;
using PupilBridge.Constructed.Published;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Tests.Calibration;

/// <summary>The straight line against published fits.</summary>
public sealed class LineFitTests
{
    public static TheoryData<string, double, double> CertifiedNorris
    {
        get
        {
            var fit = LineFit.Of(Norris.Points);
            var all = new TheoryData<string, double, double>();
            foreach (var (value, certified, found) in Norris.Compare(fit))
                all.Add(value, certified, found);
            all.Add("1 - R squared", 26.6173985294224 / (4255954.13232369 + 26.6173985294224), 1 - fit.RSquared);
            return all;
        }
    }

    /// <summary>
    /// Correct digits are counted as −log10 of the relative error. 1 − R² is no certified value; it shows that R² is right
    /// beyond its nines, as far as a double near 1 can be.
    /// </summary>
    [Theory]
    [MemberData(nameof(CertifiedNorris))]
    public void Every_certified_value_of_Norris_comes_out_to_ten_digits_and_more(
        string value,
        double certified,
        double found
    )
    {
        var digits = CorrectDigits.Of(found, certified);
        Assert.True(digits >= (value.StartsWith('1') ? 10 : 12), $"{value}: {digits:0.0} digits");
    }

    /// <summary>JCGM 100:2008, Table H.7 and H.3.3: −0.1712(29), 0.00218(67), −0.930, 0.0035.</summary>
    [Fact]
    public void The_thermometer_of_the_guide_to_its_published_digits_and_beyond()
    {
        var fit = LineFit.Of(Thermometer.Points, Thermometer.Origin);
        Assert.All(Thermometer.ComparePrinted(fit), one => Assert.Equal(one.Printed, one.Found));
        Assert.Equal(9, fit.DegreesOfFreedom);
        Assert.Equal(11, fit.Count);

        Assert.Equal(-0.171203790131, fit.Intercept, 12);
        Assert.Equal(0.002877597835, fit.InterceptUncertainty, 12);
        Assert.Equal(0.00218269773989, fit.Slope, 14);
        Assert.Equal(0.000667938773228, fit.SlopeUncertainty, 15);
        Assert.Equal(-0.930429603093, fit.Correlation, 12);
        Assert.Equal(0.003497563964, fit.ResidualDeviation, 12);
        Assert.Equal(0.000110096583109, fit.SquaresOfResiduals, 15);
        Assert.Equal(301.613452 / 11, fit.SquaresOfX, 7);
    }

    [Fact]
    public void The_thermometer_comes_out_to_twelve_digits_of_what_exact_fractions_give() =>
        Assert.All(
            Thermometer.Compare(LineFit.Of(Thermometer.Points, Thermometer.Origin)),
            one => Assert.True(CorrectDigits.Of(one.Found, one.Reference) > 12, $"{one.Value}: {one.Found:R}")
        );

    [Fact]
    public void The_covariance_is_that_of_the_correlation()
    {
        var fit = LineFit.Of(Thermometer.Points, Thermometer.Origin);
        Assert.Equal(1, fit.Correlation * fit.InterceptUncertainty * fit.SlopeUncertainty / fit.Covariance, 12);
    }

    [Fact]
    public void Fitted_values_and_residuals_are_the_printed_ones()
    {
        var fit = LineFit.Of(Thermometer.Points, Thermometer.Origin);
        foreach (var (point, printed) in Thermometer.Points.Zip(Thermometer.Printed))
        {
            Assert.Equal(printed.Fitted, fit.At(point.X), 4);
            Assert.Equal(printed.Residual, fit.ResidualOf(point), 4);
        }
    }

    /// <summary>Where the line is stated does not change the line: a property of the formula, for random origins.</summary>
    [Fact]
    public void The_origin_moves_the_statement_and_not_the_line() =>
        Gen.Double[-1000, 1000]
            .Sample(origin =>
            {
                var here = LineFit.Of(Thermometer.Points, Thermometer.Origin);
                var there = LineFit.Of(Thermometer.Points, origin);
                Assert.Equal(here.At(24), there.At(24), 12);
                Assert.Equal(here.UncertaintyAt(24), there.UncertaintyAt(24), 12);
                Assert.Equal(here.Slope, there.Slope, 14);
                Assert.Equal(there.At(origin), there.Intercept, 12);
            });

    /// <summary>A billion added to every x moves the line along and costs no digit that the input still has.</summary>
    [Fact]
    public void Large_numbers_with_small_differences_cost_no_digits()
    {
        double[] steps = [0, 0.25, 0.5, 0.75, 1, 1.25];
        double[] rises = [0, 0.5, 1, 1.5, 2, 3];
        var near = LineFit.Of([.. steps.Zip(rises, (x, y) => new CalibrationPoint(x, y))]);
        var far = LineFit.Of([.. steps.Zip(rises, (x, y) => new CalibrationPoint(x + 1e9, y + 1e9))], 1e9);
        Assert.Equal(near.Slope, far.Slope, 14);
        Assert.Equal(near.Intercept, far.Intercept - 1e9, 6);
        Assert.Equal(near.ResidualDeviation, far.ResidualDeviation, 14);
        Assert.Equal(near.SlopeUncertainty, far.SlopeUncertainty, 14);
    }

    [Fact]
    public void Readings_that_meet_a_line_leave_no_residual()
    {
        var fit = LineFit.Of([new(1, 3), new(2, 5), new(4, 9)]);
        Assert.Equal(1, fit.Intercept, 14);
        Assert.Equal(2, fit.Slope, 14);
        Assert.Equal(0, fit.ResidualDeviation, 14);
        Assert.Equal(1, fit.RSquared, 14);
    }

    /// <summary>Where y does not vary there is nothing to explain, and the share explained is no number.</summary>
    [Fact]
    public void Corrections_that_are_all_alike_explain_nothing() =>
        Assert.True(double.IsNaN(LineFit.Of([new(1, 0.1), new(2, 0.1), new(4, 0.1)]).RSquared));

    public static TheoryData<CalibrationPoint[], StatisticsFault> Unfit =>
        new()
        {
            { [], StatisticsFault.TooFew },
            { [new(3, 0.1), new(5, 0.2)], StatisticsFault.TooFew },
            { [new(3, 0.1), new(5, double.NaN), new(6, 0)], StatisticsFault.NotANumber },
            { [new(3, 0.1), new(double.NegativeInfinity, 1), new(6, 0)], StatisticsFault.NotANumber },
            { [new(3, 0.1), new(3, 0.2), new(3, 0.3)], StatisticsFault.NoVariation },
            { [new(3, 0.1), new(3, 0.2), new(6, 0.3), new(6, 0.1)], StatisticsFault.TwoPlacesOnly },
            { [new(3, 0.1), new(3.02, 0.2), new(6.01, 0.3), new(6, 0.1)], StatisticsFault.TwoPlacesOnly },
        };

    [Theory]
    [MemberData(nameof(Unfit))]
    public void Readings_that_make_no_line_are_refused(CalibrationPoint[] points, StatisticsFault fault) =>
        Assert.Equal(fault, Assert.Throws<StatisticsRefusedException>(() => LineFit.Of(points)).Fault);
}
