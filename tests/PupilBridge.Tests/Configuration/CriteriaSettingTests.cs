using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Configuration;

public sealed class CriteriaSettingTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("Site:BrightCandelasPerSquareMetre=100", "says nothing without Site:BrightSquareDegrees")]
    [InlineData("Site:DimSquareDegrees=2827", "says nothing without Site:DimCandelasPerSquareMetre")]
    [InlineData("Site:BrightLux=300", "is no setting")]
    [InlineData("Site:EyesThatSeeIt=3", "allowed is 1 or 2")]
    [InlineData("Criteria:ClinicalAnisocoriaMillimetres=1,5", "allowed is a number from 0.1 to 5")]
    [InlineData("Criteria:LampBalanceDays=0", "from 1 to 3650 in steps of 1")]
    [InlineData("Criteria:LampBalanceDays=1.5", "from 1 to 3650 in steps of 1")]
    [InlineData("Criteria:DissociationGrades=0.7", "in steps of 0.5")]
    [InlineData("Criteria:LagEarlySeconds=12", "set them further apart")]
    public async Task A_setting_that_cannot_be_is_named_with_what_is_allowed(string set, string expected)
    {
        var outcome = await Invoked.Run("config", "check", "--data", folder.Path, "--set", set);
        Assert.Equal(ExitCode.Configuration, outcome.Code);
        Assert.Contains(expected, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_set_is_what_the_criteria_get()
    {
        var settings = Settings.Read(
            folder.Path,
            new Dictionary<string, string?>
            {
                ["Site:BrightCandelasPerSquareMetre"] = "100",
                ["Site:BrightSquareDegrees"] = "2827.4",
                ["Site:EyesThatSeeIt"] = "1",
                ["Criteria:ClinicalAnisocoriaMillimetres"] = "0.8",
                ["Criteria:DissociationGrades"] = "1.5",
                ["Criteria:LampBalanceDays"] = "100",
                ["Criteria:LikeLightFactor"] = "2",
            }
        );
        Assert.Empty(settings.Faults);
        var (site, limits) = (settings.Criteria.Site, settings.Criteria.Limits);
        Assert.Equal(new Exams.ExpectedSizes.AdaptingField(100, 2827.4, 1), site.Bright);
        Assert.Null(site.Dim);
        Assert.Equal(
            (800, 3, 100, 2.0),
            (
                limits.ClinicalAnisocoria.Value,
                limits.DissociationHalfSteps,
                limits.LampBalanceDays,
                limits.LikeLightFactor
            )
        );
        Assert.Equal(Exams.Criteria.CriteriaLimits.Default.DilationLag, limits.DilationLag);
    }

    [Fact]
    public void Every_default_that_is_documented_is_the_one_in_use() =>
        Assert.Equal(
            Exams.Criteria.CriteriaLimits.Default,
            Settings
                .Read(folder.Path, CriteriaOptions.All.ToDictionary(s => s.Key, s => (string?)s.Default))
                .Criteria.Limits
        );
}
