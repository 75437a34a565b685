using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Exams.Tests.ExpectedSizes;

/// <summary>Where the formula ends: nothing is clamped in silence, as some public implementations do at 20 and 83 years.</summary>
public sealed class ExpectedSizeLimitsTests
{
    [Theory]
    [InlineData(0, 100, 2, 30, ExpectedSizeFault.LuminanceNotPositive)]
    [InlineData(-1, 100, 2, 30, ExpectedSizeFault.LuminanceNotPositive)]
    [InlineData(double.NaN, 100, 2, 30, ExpectedSizeFault.LuminanceNotPositive)]
    [InlineData(double.PositiveInfinity, 100, 2, 30, ExpectedSizeFault.LuminanceNotPositive)]
    [InlineData(1, 0, 2, 30, ExpectedSizeFault.AreaNotPositive)]
    [InlineData(1, double.NaN, 2, 30, ExpectedSizeFault.AreaNotPositive)]
    [InlineData(1, 41254, 2, 30, ExpectedSizeFault.AreaBeyondSphere)]
    [InlineData(1, 100, 0, 30, ExpectedSizeFault.NotOneOrTwoEyes)]
    [InlineData(1, 100, 3, 30, ExpectedSizeFault.NotOneOrTwoEyes)]
    [InlineData(1, 100, 2, 0.99, ExpectedSizeFault.TooYoung)]
    [InlineData(1, 100, 2, double.NaN, ExpectedSizeFault.TooYoung)]
    [InlineData(1, 100, 2, 83.01, ExpectedSizeFault.TooOld)]
    public void What_the_formula_does_not_cover_is_refused(
        double luminance,
        double area,
        int eyes,
        double age,
        ExpectedSizeFault fault
    )
    {
        var field = new AdaptingField(luminance, area, eyes);
        Assert.Equal([fault], ExpectedSizeLimits.Faults(field, age));
        var refusal = Assert.Throws<ArgumentException>(() => UnifiedFormula.Expect(field, age));
        Assert.Contains(fault.ToString(), refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, ExpectedSizeForm.Child)]
    [InlineData(19.99, ExpectedSizeForm.Child)]
    [InlineData(20, ExpectedSizeForm.Adult)]
    [InlineData(83, ExpectedSizeForm.Adult)]
    public void The_age_chooses_the_form_up_to_the_limits(double age, ExpectedSizeForm form)
    {
        var size = UnifiedFormula.Expect(new AdaptingField(10, 1000, 2), age);
        Assert.Equal(form, size.Form);
        Assert.Equal(
            form == ExpectedSizeForm.Child,
            size.Cautions.Contains(ExpectedSizeCaution.ChildFormIsHypothetical)
        );
    }

    [Theory]
    [InlineData(0.00009)]
    [InlineData(10001)]
    public void Light_beyond_the_papers_curves_is_said(double luminance) =>
        Assert.Equal(
            [ExpectedSizeCaution.LuminanceBeyondCurves],
            UnifiedFormula.Expect(new AdaptingField(luminance, 1000, 2), 30).Cautions
        );
}
