using CsCheck;
using PupilBridge.Constructed.Published;
using PupilBridge.Exams.Calibration;

namespace PupilBridge.Exams.Tests.Calibration;

/// <summary>The calibration as it is kept says what the fit said.</summary>
public sealed class CorrectionLineTests
{
    private static readonly CalibrationLine Line = new(
        LineFit.Of(Thermometer.Points, Thermometer.Origin),
        new CommonOffset(0.005, 12)
    );

    [Fact]
    public void It_predicts_what_the_fit_predicts_anywhere_near() =>
        Gen.Double[10, 40]
            .Sample(x =>
            {
                var fitted = Line.Predict(x);
                var kept = CorrectionLine.Of(Line).Predict(x);
                // By their difference: rounded to digits, two numbers a last bit apart may fall to either side of a digit.
                Assert.InRange(kept.Y - fitted.Y, -5e-14, 5e-14);
                Assert.InRange(kept.StandardUncertainty - fitted.StandardUncertainty, -5e-14, 5e-14);
                Assert.InRange((kept.DegreesOfFreedom / fitted.DegreesOfFreedom) - 1, -5e-9, 5e-9);
            });

    /// <summary>JCGM 100:2008, H.3.4: b(30 °C) = −0.149376812732 with u = 0.004138595753, computed by another program.</summary>
    [Fact]
    public void It_corrects_as_the_guide_corrects()
    {
        var correction = CorrectionLine.Of(new(Line.Fit, CommonOffset.None));
        var (corrected, uncertainty) = correction.Apply(30);
        Assert.Equal(30 - 0.149376812732, corrected, 12);
        Assert.Equal(0.004138595753, uncertainty, 12);
        Assert.True(correction.IsCalibrated);
    }

    /// <summary>What corrects thousands of exams adds up without a list what the budget lists.</summary>
    [Fact]
    public void It_is_as_uncertain_as_its_budget_says() =>
        Gen.Select(
                Gen.Double[0, 12],
                Gen.Double[0, 1e-2].Array[4],
                Gen.Double[-1e-3, 1e-3].Array[2],
                Gen.Double[0, 0.1].Array[2]
            )
            .Sample(
                (at, variances, covariances, parts) =>
                {
                    var line = new CorrectionLine(5, 0.1, 0.01, new(variances[0], variances[1], covariances[0]), 6)
                    {
                        FromDiscs = new(variances[2], variances[3], covariances[1]),
                        Straightness = new(parts[0], IsFromReadings: false),
                        Common = new(parts[1]),
                    };
                    var (corrected, uncertainty) = line.Apply(at);
                    Assert.Equal(at + line.Predict(at).Y, corrected, 12);
                    Assert.Equal(line.Predict(at).StandardUncertainty, uncertainty, 12);
                }
            );
}
