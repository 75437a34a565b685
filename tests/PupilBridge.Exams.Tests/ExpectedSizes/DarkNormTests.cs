using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Exams.Tests.ExpectedSizes;

/// <summary>Bradley JC et al., J Refract Surg 2011;27(3):202-207 (abstract).</summary>
public sealed class DarkNormTests
{
    [Theory]
    [InlineData(18, 6.85, 5.6, 7.5, 6)]
    [InlineData(19.9, 6.85, 5.6, 7.5, 6)]
    [InlineData(20, 7.33, 5.7, 8.8, 66)]
    [InlineData(29, 7.33, 5.7, 8.8, 66)]
    [InlineData(35, 6.64, 5.3, 8.7, 50)]
    [InlineData(45, 6.15, 4.5, 8.2, 51)]
    [InlineData(49.9, 6.15, 4.5, 8.2, 51)]
    [InlineData(50, 5.77, 4.4, 7.2, 50)]
    [InlineData(65, 5.58, 3.5, 7.5, 30)]
    [InlineData(79, 5.17, 4.6, 6.0, 6)]
    [InlineData(80, 4.85, 4.1, 5.3, 4)]
    public void Every_row_stands_as_printed(double age, double mean, double smallest, double largest, int people)
    {
        var row = DarkNorm.Of(age)!;
        Assert.Equal(
            (mean, smallest, largest, people),
            (row.MeanMillimetres, row.LeastMillimetres, row.MostMillimetres, row.People)
        );
    }

    [Fact]
    public void The_decades_are_whole_and_hold_all_263_people()
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
    [InlineData(17)]
    [InlineData(17.9)]
    [InlineData(81)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Ages_without_a_row_have_none(double age) => Assert.Null(DarkNorm.Of(age));

    [Theory]
    [InlineData(1_000L, true)]
    [InlineData(500L, true)]
    [InlineData(1_501L, false)]
    [InlineData(null, false)]
    public void The_light_must_be_one_lux(long? millilux, bool expected) =>
        Assert.Equal(expected, DarkNorm.IsOneLux(millilux));
}
