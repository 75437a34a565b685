using System.Globalization;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs;

/// <summary>
/// <c>expect-size</c>. The formula is checked against its source (Watson &amp; Yellott, J Vision 2012;12(10):12) beside the
/// domain's tests; here, that the words on the command line reach it, and what is refused.
/// </summary>
public sealed class ExpectSizeTests
{
    [Theory]
    [InlineData("1", "2827.4333882308138", "30", "2", 5.119545)]
    [InlineData("1e4", "78.539816339744831", "30", "1", 3.352191)]
    [InlineData("0.0846", "10000", "28.58", "2", 5.833333)]
    [InlineData("1", "2827.4333882308138", "5", "2", 5.044312)]
    public async Task The_json_has_the_diameter_at_full_precision(
        string luminance,
        string area,
        string age,
        string eyes,
        double expected
    )
    {
        var outcome = await Run(luminance, area, age, eyes, "--json");
        Assert.Equal(ExitCode.Done, outcome.Code);
        using var document = JsonDocument.Parse(outcome.Out);
        var text = document.RootElement.GetProperty("diameter_mm").GetRawText();
        Assert.Equal(expected, double.Parse(text, CultureInfo.InvariantCulture), 6);
        Assert.True(text.Length > 12, $"{text} is not at full precision");
    }

    [Fact]
    public async Task The_text_says_how_wide_the_field_is_and_that_people_differ()
    {
        var outcome = await Run("1", "2827.43", "30", "2");
        Assert.Equal(ExitCode.Done, outcome.Code);
        Assert.Contains("5.12 mm", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("60.0° across", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("differ widely", outcome.Out, StringComparison.Ordinal);
        Assert.Empty(outcome.Error);
    }

    [Fact]
    public async Task Under_twenty_years_the_weaker_form_is_named()
    {
        var outcome = await Run("1", "2827.43", "5", "2");
        Assert.Contains("children", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("more hypothetical", outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0", "100", "30", "2", "luminance")]
    [InlineData("1", "-3", "30", "2", "area")]
    [InlineData("1", "50000", "30", "2", "41,253")]
    [InlineData("1", "100", "0.5", "2", "from 1 year")]
    [InlineData("1", "100", "84", "2", "up to 83 years")]
    public async Task Outside_the_formulas_limits_nothing_is_computed(
        string luminance,
        string area,
        string age,
        string eyes,
        string says
    )
    {
        var outcome = await Run(luminance, area, age, eyes, "--json");
        Assert.Equal(ExitCode.Refused, outcome.Code);
        Assert.Empty(outcome.Out);
        Assert.Contains(says, outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1,5", "100", "30", "2", "has a comma")]
    [InlineData("bright", "100", "30", "2", "is no number")]
    [InlineData("NaN", "100", "30", "2", "is no number")]
    [InlineData("1", "100", "30", "3", "'3'")]
    public async Task What_is_no_number_is_named_with_its_option(
        string luminance,
        string area,
        string age,
        string eyes,
        string says
    )
    {
        var outcome = await Run(luminance, area, age, eyes);
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains(says, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missing_option_is_asked_for()
    {
        var outcome = await Invoked.Run("expect-size", "--luminance", "1", "--age", "30", "--eyes", "2");
        Assert.Equal(ExitCode.Usage, outcome.Code);
        Assert.Contains("--area", outcome.Error, StringComparison.Ordinal);
    }

    private static Task<Outcome> Run(string luminance, string area, string age, string eyes, params string[] more) =>
        Invoked.Run(["expect-size", "--luminance", luminance, "--area", area, "--age", age, "--eyes", eyes, .. more]);
}
