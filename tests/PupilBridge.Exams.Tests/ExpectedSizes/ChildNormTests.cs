using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Exams.Tests.ExpectedSizes;

/// <summary>What children of an age were found to have, under the light in which they were measured.</summary>
public sealed class ChildNormTests
{
    /// <summary>MacLachlan &amp; Howland, Ophthal Physiol Opt 2002;22(3):175-182; values computed by another program.</summary>
    [Theory]
    [InlineData(1, 6.006, 5.674)]
    [InlineData(5, 6.603, 6.553)]
    [InlineData(10, 7.110, 7.160)]
    [InlineData(15, 7.353, 7.223)]
    [InlineData(18, 7.371, 6.998)]
    public void The_curves_of_children_come_out_to_their_printed_digits(double age, double male, double female)
    {
        // Half a unit of the last digit, and what binary numbers add to it: 7.3525 is printed as 7.353.
        Assert.InRange(ChildNorm.Male(age)!.Value - male, -0.0005001, 0.0005001);
        Assert.InRange(ChildNorm.Female(age)!.Value - female, -0.0005001, 0.0005001);
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(19.5)]
    [InlineData(double.NaN)]
    public void Outside_their_ages_the_curves_end(double age)
    {
        Assert.Null(ChildNorm.Male(age));
        Assert.Null(ChildNorm.Female(age));
    }
}
