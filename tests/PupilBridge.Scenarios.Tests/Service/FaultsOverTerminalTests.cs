using PupilBridge.Scenarios.Oracle;
using PupilBridge.Scenarios.Service;
using Xunit.Abstractions;

namespace PupilBridge.Scenarios.Tests.Service;

/// <summary>Every fault at once between the real service and an instrument behind a pseudo-terminal.</summary>
public sealed class FaultsOverTerminalTests(ITestOutputHelper output) : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pb-faults-").FullName;

    [Fact]
    public async Task In_5_exams_each_event_is_recorded_once_and_in_order_or_stands_in_a_gap()
    {
        var total = AuditResult.None;
        for (var seed = 1; seed <= 5; seed++)
        {
            var run = Directory.CreateDirectory(Path.Combine(folder, $"{seed}")).FullName;
            var result = await FaultsOverTerminal.RunAsync(run, seed, pace: 4);
            output.WriteLine($"seed {seed}: {result.Audit}, stop {result.StopTime.TotalMilliseconds:F0} ms");
            output.WriteLine(string.Join(", ", result.Fired.Select(f => $"{f.Key} {f.Value}")));
            Assert.True(result.StillServing, result.Said);
            Assert.True(result.CameToRest, $"seed {seed} did not come to rest:\n{result.Said}");
            Assert.True(result.Audit.Problems.Count == 0, $"seed {seed}: {string.Join("; ", result.Audit.Problems)}");
            Assert.DoesNotContain("Unhandled", result.Said, StringComparison.Ordinal);
            total += result.Audit;
        }

        Assert.Equal((0, 0, 0), (total.Lost, total.Doubled, total.False));
        Assert.True(total.Recorded > 500, $"only {total.Recorded} events were recorded");
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
