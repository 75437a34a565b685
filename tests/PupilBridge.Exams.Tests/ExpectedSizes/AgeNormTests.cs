using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Exams.Tests.ExpectedSizes;

/// <summary>What people of an age were found to have, under the light in which they were measured.</summary>
public sealed class AgeNormTests
{
    /// <summary>Bradley et al., J Refract Surg 2011;27(3):202-207, abstract: 263 people in all.</summary>
    [Fact]
    public void The_decades_in_the_dark_are_whole()
    {
        Assert.Equal(263, DarkNorm.All.Sum(norm => norm.People));
        Assert.All(
            DarkNorm.All,
            norm => Assert.InRange(norm.MeanMillimetres, norm.LeastMillimetres, norm.MostMillimetres)
        );
        Assert.All(
            DarkNorm.All.Zip(DarkNorm.All.Skip(1)),
            pair => Assert.Equal(pair.First.ToYears + 1, pair.Second.FromYears)
        );
    }

    [Theory]
    [InlineData(18, 6.85)]
    [InlineData(20, 7.33)]
    [InlineData(29, 7.33)]
    [InlineData(45, 6.15)]
    [InlineData(80, 4.85)]
    public void An_age_has_its_row(int years, double mean) => Assert.Equal(mean, DarkNorm.Of(years)!.MeanMillimetres);

    [Theory]
    [InlineData(17)]
    [InlineData(81)]
    public void Where_nobody_was_measured_there_is_no_row(int years) => Assert.Null(DarkNorm.Of(years));

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
