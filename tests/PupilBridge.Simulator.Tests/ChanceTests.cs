namespace PupilBridge.Simulator.Tests;

public class ChanceTests
{
    [Fact]
    public void The_same_seed_and_purpose_give_the_same_draws()
    {
        var one = new Chance(7, "unrest");
        var two = new Chance(7, "unrest");
        for (var i = 0; i < 100; i++)
        {
            Assert.Equal(one.NextBits(), two.NextBits());
        }
    }

    [Fact]
    public void Another_purpose_or_seed_gives_other_draws()
    {
        Assert.NotEqual(new Chance(7, "unrest").NextBits(), new Chance(7, "examiner").NextBits());
        Assert.NotEqual(new Chance(7, "unrest").NextBits(), new Chance(8, "unrest").NextBits());
    }

    // SplitMix64 started at 0 gives E220A8397B1DCDAF first (the reference implementation's known value, from memory).
    [Fact]
    public void The_generator_gives_the_reference_value() =>
        Assert.Equal(0xE220A8397B1DCDAFUL, new Chance(0, "").NextBits());

    [Fact]
    public void Gaussian_draws_have_mean_0_and_deviation_1()
    {
        var chance = new Chance(3, "test");
        var draws = Enumerable.Range(0, 20_000).Select(_ => chance.NextGaussian()).ToArray();
        var mean = draws.Average();
        var deviation = Math.Sqrt(draws.Average(d => (d - mean) * (d - mean)));
        Assert.InRange(mean, -0.03, 0.03);
        Assert.InRange(deviation, 0.98, 1.02);
    }

    [Fact]
    public void Whole_numbers_stay_in_their_range_and_reach_both_ends()
    {
        var chance = new Chance(3, "test");
        var draws = Enumerable.Range(0, 1000).Select(_ => chance.NextInteger(-2, 3)).ToHashSet();
        Assert.Equal([-2, -1, 0, 1, 2], draws.Order());
    }
}
