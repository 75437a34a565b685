using PupilBridge.Exams.Criteria.Norms;

namespace PupilBridge.Exams.Tests.Criteria.Norms;

/// <summary>Bradley JC et al., J Refract Surg 2011;27(3):202-207 (abstract).</summary>
public class DarkDecadesTests
{
    [Theory]
    [InlineData(18, 6.85, 5.6, 7.5, 6)]
    [InlineData(19.9, 6.85, 5.6, 7.5, 6)]
    [InlineData(20, 7.33, 5.7, 8.8, 66)]
    [InlineData(35, 6.64, 5.3, 8.7, 50)]
    [InlineData(49.9, 6.15, 4.5, 8.2, 51)]
    [InlineData(50, 5.77, 4.4, 7.2, 50)]
    [InlineData(65, 5.58, 3.5, 7.5, 30)]
    [InlineData(79, 5.17, 4.6, 6.0, 6)]
    [InlineData(80, 4.85, 4.1, 5.3, 4)]
    public void Every_row_stands_as_printed(double age, double mean, double smallest, double largest, int people)
    {
        var row = DarkDecades.Of(age)!;
        Assert.Equal(
            (mean, smallest, largest, people),
            (row.MeanMillimetres, row.SmallestMillimetres, row.LargestMillimetres, row.People)
        );
    }

    [Fact]
    public void All_263_people_are_in_it() => Assert.Equal(263, DarkDecades.All.Sum(row => row.People));

    [Theory]
    [InlineData(17.9)]
    [InlineData(81)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Ages_without_a_row_have_none(double age) => Assert.Null(DarkDecades.Of(age));

    [Theory]
    [InlineData(1_000L, true)]
    [InlineData(500L, true)]
    [InlineData(1_501L, false)]
    [InlineData(null, false)]
    public void The_light_must_be_one_lux(long? millilux, bool expected) =>
        Assert.Equal(expected, DarkDecades.IsOneLux(millilux));
}
