using PupilBridge.Exams.Statistics;

namespace PupilBridge.Exams.Tests.Statistics;

/// <summary>Sums that keep what rounding drops.</summary>
public sealed class SampleTests
{
    /// <summary>1 + 1e100 − 1e100 is 1, which a plain sum loses.</summary>
    [Fact]
    public void A_compensated_sum_keeps_small_terms_beside_large_ones()
    {
        var sum = new CompensatedSum();
        sum.Add(1);
        sum.Add(1e100);
        sum.Add(-1e100);
        Assert.Equal(1, sum.Value);
    }

    /// <summary>The squares of 1e8 + 1 and 1e8 differ by 200000001; plain doubles lose the last digit.</summary>
    [Fact]
    public void A_compensated_sum_of_products_is_exact_to_the_last_digit()
    {
        var sum = new CompensatedSum();
        sum.AddProduct(100000001, 100000001);
        sum.AddProduct(-100000000, 100000000);
        Assert.Equal(200000001, sum.Value);
    }

    /// <summary>
    /// A thousand values of ten million and a quarter, plus and minus an eighth: all exact in binary, so that mean and
    /// scatter follow from arithmetic, √(1000·0.125²/1000). Single-pass formulas lose every digit here.
    /// </summary>
    [Fact]
    public void Scatter_beside_a_large_mean_is_right()
    {
        double[] values =
        [
            10000000.25,
            .. Enumerable.Range(0, 500).SelectMany(_ => (double[])[10000000.125, 10000000.375]),
        ];
        var sample = Sample.Of(values);
        Assert.Equal(10000000.25, sample.Mean);
        Assert.Equal(0.125, sample.StandardDeviation);
    }

    [Fact]
    public void A_mean_needs_a_value() => Assert.Throws<ArgumentException>(() => Sample.Of([]));
}
