using PupilBridge.Exchange.Certificates;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>How amounts are written.</summary>
public sealed class AmountsTests
{
    [Theory]
    [InlineData(0, "0")]
    [InlineData(0.0123, "0.012")]
    [InlineData(0.00949, "0.0095")]
    [InlineData(0.0996, "0.10")]
    [InlineData(0.995, "1.0")]
    [InlineData(1.16, "1.2")]
    [InlineData(12.4, "12")]
    [InlineData(123.4, "123")]
    [InlineData(0.00000312, "0.0000031")]
    public void Uncertainties_have_two_significant_digits(double amount, string written) =>
        Assert.Equal(written, Amounts.Uncertainty(amount));

    [Theory]
    [InlineData(0.0213, "+0.021")]
    [InlineData(-0.0213, "\u22120.021")]
    [InlineData(-0.0004, "0.000")]
    [InlineData(0.0004, "0.000")]
    [InlineData(0, "0.000")]
    public void What_lies_on_either_side_of_zero_has_its_sign(double millimetres, string written) =>
        Assert.Equal(written, Amounts.SignedMillimetres(millimetres));

    /// <summary>JCGM 100:2008, 7.2.6: 10.057 62 Ω with a standard uncertainty of 27 mΩ is rounded to 10.058 Ω.</summary>
    [Theory]
    [InlineData(10.05762, 0.027, "+10.058")]
    [InlineData(-0.00213, 0.00067, "\u22120.00213")]
    public void A_value_goes_as_far_as_its_uncertainty(double amount, double uncertainty, string written) =>
        Assert.Equal(written, Amounts.Beside(amount, uncertainty));

    [Theory]
    [InlineData(24.0, "24")]
    [InlineData(26.37, "26.4")]
    [InlineData(3.987, "4.0")]
    [InlineData(null, "\u221E")]
    public void Degrees_of_freedom_may_be_without_end(double? degrees, string written) =>
        Assert.Equal(written, Amounts.Degrees(degrees));
}
