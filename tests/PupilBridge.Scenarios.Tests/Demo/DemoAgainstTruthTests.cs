using System.Text.Json;
using PupilBridge.Instrument;
using PupilBridge.Scenarios.Service;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Scenarios.Tests.Demo;

/// <summary>
/// Whole exams of simulated patients by the program itself, over a kernel pseudo-terminal: what stands in the record is what
/// is true of the simulated eyes, and nothing is claimed that was not examined.
/// </summary>
public sealed class DemoAgainstTruthTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pb-demo-").FullName;

    [Theory]
    [InlineData("normal", "Quay-A", "no RAPD seen (short and long dwell)", "A: not examined")]
    [InlineData("normal", "Quay-B", "no RAPD seen (short and long dwell)", "A: not examined")]
    [InlineData("right-rapd-marked", "Quay-A", "RAPD OD (right) seen", "A: not examined")]
    [InlineData("right-rapd-marked", "Quay-B", "RAPD OD (right) seen", "A: not examined")]
    [InlineData("left-rapd", "Quay-B", "RAPD OS (left) seen", "A: not examined")]
    [InlineData("light-near", "Quay-A", "absence of an RAPD not claimed", "RL: a direct response below")]
    [InlineData("right-fixed", "Quay-A", "absence of an RAPD not claimed", "sizes differ by more than 0.4 mm")]
    [InlineData("irregular", "Quay-A", "no RAPD seen (short and long dwell)", "R: not round")]
    public async Task The_chart_says_what_is_true_of_the_simulated_eyes(
        string scenario,
        string model,
        string swinging,
        string letters
    )
    {
        using var exam = await DemoAsync("--scenario", scenario, "--model", model);
        var chart = exam.RootElement.GetProperty("exam").GetProperty("summary").GetProperty("chartLine").GetString()!;
        Assert.Contains(swinging, chart, StringComparison.Ordinal);
        Assert.Contains(letters, chart, StringComparison.Ordinal);
        Assert.Contains("uncalibrated", chart, StringComparison.Ordinal);
        var near = scenario is "light-near" or "right-fixed";
        Assert.Equal(near, !chart.Contains("Near: OD (right) not examined", StringComparison.Ordinal));
        Assert.Equal(
            "ready-for-review",
            exam.RootElement.GetProperty("exam").GetProperty("summary").GetProperty("status").GetString()
        );
    }

    [Theory]
    [InlineData("right-fixed", "Quay-A")]
    [InlineData("right-fixed", "Quay-B")]
    public async Task The_eyes_are_not_mistaken_for_each_other(string scenario, string model)
    {
        using var exam = await DemoAsync("--scenario", scenario, "--model", model);
        var sizes = exam
            .RootElement.GetProperty("exam")
            .GetProperty("sizes")
            .EnumerateArray()
            .ToLookup(SizeKey, Millimetres);
        var truth = NamedScenarios.Find(scenario)!.Patient.Eyes;
        Assert.True(truth[Eye.Right].LightGain < truth[Eye.Left].LightGain, "the scenario is not what it is called");

        // The fixed pupil is the right one: in bright light it alone stays wide.
        Assert.True(sizes[("OD", "bright")].Single() > sizes[("OS", "bright")].Single() + 1);
        Assert.Equal(4, sizes.Count);
    }

    private static (string Eye, string Light) SizeKey(JsonElement size) =>
        (size.GetProperty("eye").GetString()!, size.GetProperty("light").GetString()!);

    private static double Millimetres(JsonElement size) => size.GetProperty("millimetres").GetDouble();

    private async Task<JsonDocument> DemoAsync(params string[] options)
    {
        var run = await ProgramRun.RunAsync(["demo", "--json", "--data", folder, .. options]);
        Assert.True(run.ExitCode == 0, $"exit code {run.ExitCode}\n{run.Errors}");
        return JsonDocument.Parse(run.Output);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
