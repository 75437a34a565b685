using PupilBridge.Exams.Diameters;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Tests.Diameters;

public class DiameterTests
{
    // A diameter as the difference of a scale's two readings: common practice, no source.
    [Theory]
    [InlineData(5000, 8210, ScaleDirection.Temporal, 3210)]
    [InlineData(8210, 5000, ScaleDirection.Nasal, 3210)]
    [InlineData(8210, 5000, ScaleDirection.Temporal, -3210)]
    public void A_diameter_is_the_difference_of_two_readings_from_nose_to_temple(
        int nasal,
        int temporal,
        ScaleDirection direction,
        int expected
    ) => Assert.Equal(expected, new EdgePair(new(nasal), new(temporal), direction).Difference.Value);

    [Fact]
    public void A_scale_whose_direction_is_not_known_gives_none() =>
        Assert.Throws<InvalidOperationException>(() => new EdgePair(new(1), new(2), ScaleDirection.None).Difference);

    // JCGM 100:2008, 4.3.7: a rectangular distribution of half-width a has the variance a²/3. Two readings of a scale with
    // step r (a = r/2 each) make a difference with variance 2·(r/2)²/3 = r²/6. For r = 0.05 mm that is, worked out by hand,
    // √(0.0025/6) = 0.0204124145… mm.
    [Fact]
    public void Resolution_counts_as_two_rectangular_readings()
    {
        Assert.Equal(0.020412414523193152, DiameterUncertainty.FromResolution(new(50)), 15);
        Assert.Equal(0, DiameterUncertainty.FromResolution(new(0)));
    }

    // JCGM 100:2008, 5.1.2: independent contributions add in quadrature. 0.03 and 0.04 give 0.05.
    [Fact]
    public void Independent_contributions_add_in_quadrature()
    {
        var diameter = DiameterUncertainty.Of(new(4000), new(0), new(30), new Known(0.1, 0.04));
        Assert.Equal(4.1, diameter.Millimetres, 12);
        Assert.Equal(0.05, diameter.StandardUncertaintyMillimetres, 12);
        Assert.Equal(0.1, diameter.ExpandedUncertaintyMillimetres, 12);
        Assert.True(diameter.IsCalibrated);
    }

    [Fact]
    public void Without_a_correction_the_reading_stands_and_is_called_uncalibrated()
    {
        var diameter = DiameterUncertainty.Of(new(4000), new(50), new(100), Correction.None);
        Assert.Equal((4.0, false), (diameter.Millimetres, diameter.IsCalibrated));
        // √(0.0025/6 + 0.01) mm, worked out by hand.
        Assert.Equal(0.10206207261596577, diameter.StandardUncertaintyMillimetres, 15);
    }

    [Theory]
    [InlineData(4.0, 4.2, 0.4, LimitVerdict.Within)] // 0.2 + 0.1414 ≤ 0.4
    [InlineData(4.0, 4.3, 0.4, LimitVerdict.CannotTell)] // 0.3 + 0.1414 > 0.4 and 0.3 − 0.1414 ≤ 0.4
    [InlineData(4.0, 4.5, 0.4, LimitVerdict.CannotTell)]
    [InlineData(4.0, 4.6, 0.4, LimitVerdict.Above)] // 0.6 − 0.1414 > 0.4
    [InlineData(4.6, 4.0, 0.4, LimitVerdict.Above)]
    public void A_comparison_says_above_within_or_cannot_tell(double one, double other, double limit, object verdict) =>
        Assert.Equal(
            (LimitVerdict)verdict,
            Comparison.Against(new Diameter(one, 0.05, false), new Diameter(other, 0.05, false), limit)
        );

    [Fact]
    public void At_the_limit_itself_it_is_within() =>
        Assert.Equal(
            LimitVerdict.Within,
            Comparison.Against(new Diameter(4.0, 0, false), new Diameter(4.4, 0, false), 0.4)
        );

    private sealed class Known(double offset, double uncertainty) : ICorrection
    {
        public bool IsCalibrated => true;

        public (double Millimetres, double StandardUncertaintyMillimetres) Apply(double rawMillimetres) =>
            (rawMillimetres + offset, uncertainty);
    }
}
