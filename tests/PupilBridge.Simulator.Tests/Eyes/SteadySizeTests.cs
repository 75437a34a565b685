using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Simulator.Tests.Eyes;

/// <summary>
/// Source: Watson AB, Yellott JI. "A unified formula for light-adapted pupil size." J Vis 2012;12(10):12. The worked values
/// were calculated independently from the published formula, with the constants 0.02132 and 0.009562.
/// </summary>
public class SteadySizeTests
{
    private const double Exact = -1;
    private static readonly double A60 = SteadySize.DiscAreaSquareDegrees(60);
    private static readonly double A10 = SteadySize.DiscAreaSquareDegrees(10);

    [Theory]
    [InlineData(1e-4, 60, 30, 2, 0.282743, 7.643976, 7.570460)]
    [InlineData(1, 60, 30, 2, 2827.433388, 5.159324, 5.119545)]
    [InlineData(1, 60, 70, 2, 2827.433388, 5.159324, 3.999006)]
    [InlineData(100, 60, 20, 2, 282743.338823, 2.895953, 2.950617)]
    [InlineData(100, 60, 83, 2, 282743.338823, 2.895953, 2.549237)]
    [InlineData(1e4, 60, 30, 2, 28274333.8823, 2.156272, 2.157269)]
    [InlineData(1, 10, 30, 1, 7.853982, 7.356777, 7.287161)]
    [InlineData(100, 10, 30, 1, 785.398163, 5.872073, 5.822617)]
    [InlineData(1e4, 10, 30, 1, 78539.81634, 3.367643, 3.352191)]
    [InlineData(100, Exact, 28.58, 2, 10000, 4.419615, 4.419615)]
    public void Worked_values(
        double luminance,
        double disc,
        double age,
        int eyes,
        double flux,
        double ageless,
        double size
    )
    {
        var area = disc.Equals(Exact) ? 100 : SteadySize.DiscAreaSquareDegrees(disc);
        var f = SteadySize.EffectiveFlux(luminance, area, eyes);
        Assert.Equal(flux, f, Math.Max(flux * 1e-8, 5.1e-7));
        Assert.Equal(ageless, SteadySize.StanleyDaviesMillimetres(f), 6);
        Assert.Equal(size, SteadySize.Millimetres(f, age), 6);
    }

    [Fact]
    public void At_the_reference_flux_the_size_is_exactly_a_third_of_the_way()
    {
        var f = SteadySize.EffectiveFlux(0.0846, 10_000, 2);
        Assert.Equal(846, f, 1e-9);
        Assert.Equal(7.75 - (5.75 / 3), SteadySize.Millimetres(f, 28.58), 9);
    }

    // Equation 28 of the paper's appendix, for children.
    [Theory]
    [InlineData(2827.433388, 1, 4.560951)]
    [InlineData(2827.433388, 2, 4.721713)]
    [InlineData(2827.433388, 5, 5.044312)]
    [InlineData(2827.433388, 10, 5.284814)]
    [InlineData(2827.433388, 15, 5.369706)]
    [InlineData(2827.433388, 19, 5.395886)]
    [InlineData(0.282743, 1, 6.538072)]
    [InlineData(0.282743, 5, 7.431407)]
    [InlineData(0.282743, 10, 7.875896)]
    [InlineData(0.282743, 19, 8.081177)]
    public void Worked_values_for_children(double flux, double age, double size) =>
        Assert.Equal(size, SteadySize.Millimetres(flux, age), 6);

    // Equation 28 at 20 years is 5.399671 for this flux; the adults' form must meet it.
    [Fact]
    public void The_two_forms_meet_at_twenty_years() =>
        Assert.Equal(5.399671, SteadySize.Millimetres(2827.433388, 20), 1e-4);

    [Fact]
    public void Trap_the_age_bracket_around_everything_would_give_20_mm_at_5_years()
    {
        var f = Math.Pow(0.282743, 0.41);
        var wrong =
            (16.4674 + Math.Exp(-0.208269 * 5 * (-3.96868 + (0.00521209 * f))) + (0.124857 * f))
            / (2 + (0.0630635 * f));
        Assert.True(wrong > 20);
        Assert.True(SteadySize.Millimetres(0.282743, 5) < 8);
    }

    [Fact]
    public void Trap_the_area_of_the_field_counts_and_not_its_diameter()
    {
        // A 160° field entered as 160 deg² would make the flux 125 times too low.
        var right = SteadySize.Millimetres(SteadySize.EffectiveFlux(1, SteadySize.DiscAreaSquareDegrees(160), 2), 30);
        var wrong = SteadySize.Millimetres(SteadySize.EffectiveFlux(1, 160, 2), 30);
        Assert.Equal(125.66, SteadySize.DiscAreaSquareDegrees(160) / 160, 0.01);
        Assert.True(wrong - right > 1.5, $"{wrong} mm against {right} mm");
    }

    [Fact]
    public void Trap_the_size_falls_with_age_in_every_light()
    {
        // Winn B et al. IOVS 1994;35(3):1132-1137: sizes fall with age at every level, less in bright light. A lost minus
        // sign makes them grow.
        foreach (var luminance in new[] { 9.0, 44, 220, 1100, 4400 })
        {
            var f = SteadySize.EffectiveFlux(luminance, A10, 2);
            Assert.True(SteadySize.Millimetres(f, 70) < SteadySize.Millimetres(f, 30));
        }

        double Fall(double l) => SteadySize.Millimetres(l * A60, 30) - SteadySize.Millimetres(l * A60, 70);
        Assert.True(Fall(1) > Fall(100));
    }

    [Fact]
    public void The_age_is_held_at_83_years() =>
        Assert.Equal(SteadySize.Millimetres(1000, 83), SteadySize.Millimetres(1000, 99));

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SteadySize.Millimetres(-1, 30));
        Assert.Throws<ArgumentOutOfRangeException>(() => SteadySize.Millimetres(1, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => SteadySize.EffectiveFlux(1, 1, 3));
    }
}
