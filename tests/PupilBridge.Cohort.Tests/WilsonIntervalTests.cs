using PupilBridge.Cohort.Results;

namespace PupilBridge.Cohort.Tests;

/// <summary>Wilson EB, J Am Stat Assoc 1927;22(158):209-212. No printed example was at hand: checked by its defining equation.</summary>
public sealed class WilsonIntervalTests
{
    // The ends are where the score test just does not reject: found here by halving, not by the closed form. Computed by us.
    [Theory]
    [InlineData(81, 263)]
    [InlineData(1, 10)]
    [InlineData(9, 10)]
    [InlineData(500, 1000)]
    [InlineData(48, 100)]
    public void The_ends_solve_the_score_equation(int hits, int of)
    {
        var interval = new WilsonInterval(hits, of);
        Assert.Equal(Root(hits, of, 0, (double)hits / of), interval.Lower, 9);
        Assert.Equal(Root(hits, of, 1, (double)hits / of), interval.Upper, 9);
    }

    [Fact]
    public void All_and_none_end_at_the_ends()
    {
        // n/(n + z²) and z²/(n + z²), by hand from the equation with p̂ = 1 or 0.
        Assert.Equal((1, 20 / (20 + (1.959963984540054 * 1.959963984540054))), Ends(new(20, 20), upper: true));
        Assert.Equal(0, new WilsonInterval(0, 20).Lower);
        Assert.Equal(0.16113, new WilsonInterval(0, 20).Upper, 5);
    }

    [Fact]
    public void Of_nothing_nothing_is_known()
    {
        var interval = new WilsonInterval(0, 0);
        Assert.Null(interval.Proportion);
        Assert.Equal((0, 1), (interval.Lower, interval.Upper));
    }

    private static (double, double) Ends(WilsonInterval interval, bool upper) =>
        upper ? (Math.Round(interval.Upper, 12), interval.Lower) : (interval.Lower, interval.Upper);

    private static double Root(int hits, int of, double outside, double inside)
    {
        var p = (double)hits / of;
        for (var i = 0; i < 200; i++)
        {
            var middle = (outside + inside) / 2;
            var score = Math.Abs(p - middle) / Math.Sqrt(middle * (1 - middle) / of);
            if (score > 1.959963984540054)
                outside = middle;
            else
                inside = middle;
        }

        return inside;
    }
}
