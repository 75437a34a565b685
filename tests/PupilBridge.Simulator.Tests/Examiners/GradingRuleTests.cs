using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Simulator.Tests.Examiners;

/// <summary>The rule is ours: no metric standard for the grades exists.</summary>
public class GradingRuleTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.029, 0)]
    [InlineData(0.03, 1)]
    [InlineData(0.099, 1)]
    [InlineData(0.10, 2)]
    [InlineData(0.179, 2)]
    [InlineData(0.18, 3)]
    [InlineData(0.249, 3)]
    [InlineData(0.25, 4)]
    [InlineData(0.9, 4)]
    public void A_grade_follows_the_relative_narrowing(double narrowing, int grade) =>
        Assert.Equal(grade, GradingRule.Grade(narrowing));

    [Theory]
    [InlineData(0.1, 0.1, null)]
    [InlineData(0.3, 0.1, null)]
    [InlineData(0.3, -0.1, Eye.Right)]
    [InlineData(-0.3, 0.2, Eye.Left)]
    public void The_affected_eye_is_the_one_whose_light_widens_more(double right, double left, Eye? affected) =>
        Assert.Equal(affected, GradingRule.Affected(new PerEye<double> { Right = right, Left = left }));

    [Fact]
    public void Narrowing_is_by_the_smallest_size_and_widening_by_the_end()
    {
        var course = new PupilCourse(5, 4, 4.5);
        Assert.Equal(0.2, course.RelativeNarrowing, 9);
        Assert.Equal(-0.5, course.NetWidening, 9);
        Assert.Equal(0, new PupilCourse(4, 4, 5).RelativeNarrowing);
    }
}
