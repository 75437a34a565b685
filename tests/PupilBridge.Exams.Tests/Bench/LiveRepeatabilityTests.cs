using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Statistics;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Bench;

/// <summary>How well edges are set again on a living pupil.</summary>
public sealed class LiveRepeatabilityTests
{
    /// <summary>Three settings each, −0.1, 0, +0.1 mm about the middle: a sum of squares of 0.02 and 2 degrees of freedom in each.</summary>
    [Fact]
    public void It_is_the_scatter_within_one_eye_and_light_whatever_the_sizes_are()
    {
        var found = LiveRepeatability.Of(Study(3.1, 3.4, 5.9, 6.3));
        Assert.Equal(8, found.DegreesOfFreedom);
        Assert.Equal(0.1, found.WithinMillimetres, 12);
        Assert.Equal(0.277186, found.CoefficientMillimetres, 6);
        // χ² with 8 degrees of freedom: 17.5345 and 2.17973 (usual tables).
        Assert.Equal(0.1 * Math.Sqrt(8 / 17.5345), found.Interval.Low, 5);
        Assert.Equal(0.1 * Math.Sqrt(8 / 2.17973), found.Interval.High, 5);
    }

    [Fact]
    public void An_eye_or_a_light_that_is_missing_is_asked_for() =>
        Assert.Equal(
            StatisticsFault.TooFew,
            Assert.Throws<StatisticsRefusedException>(() => LiveRepeatability.Of([.. Study(3, 3, 6, 6).Take(3)])).Fault
        );

    [Fact]
    public void Too_few_settings_give_no_number() =>
        Assert.Equal(
            StatisticsFault.TooFew,
            Assert
                .Throws<StatisticsRefusedException>(() =>
                    LiveRepeatability.Of([
                        .. Study(3, 3, 6, 6).Select(s => s with { Millimetres = [.. s.Millimetres.Take(2)] }),
                    ])
                )
                .Fault
        );

    [Fact]
    public void A_scale_that_was_never_moved_is_found_out() =>
        Assert.Equal(
            StatisticsFault.NoVariation,
            Assert
                .Throws<StatisticsRefusedException>(() =>
                    LiveRepeatability.Of([.. Study(3, 3, 6, 6).Select(s => s with { Millimetres = [4, 4, 4] })])
                )
                .Fault
        );

    private static LiveSettings[] Study(double rightBright, double leftBright, double rightDim, double leftDim) =>
        [
            new(Eye.Right, false, About(rightBright)),
            new(Eye.Left, false, About(leftBright)),
            new(Eye.Right, true, About(rightDim)),
            new(Eye.Left, true, About(leftDim)),
        ];

    private static double[] About(double middle) => [middle - 0.1, middle, middle + 0.1];
}
