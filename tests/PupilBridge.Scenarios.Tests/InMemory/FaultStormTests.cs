using PupilBridge.Scenarios.InMemory;
using PupilBridge.Scenarios.Oracle;
using PupilBridge.Simulator.Faults;
using Xunit.Abstractions;

namespace PupilBridge.Scenarios.Tests.InMemory;

/// <summary>Every fault at once, in virtual time, against the product's own session and a journal on disk.</summary>
public sealed class FaultStormTests(ITestOutputHelper output) : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("pupilbridge-storm-").FullName;

    [Fact]
    public void In_200_exams_each_event_is_recorded_once_and_in_order_or_stands_in_a_gap()
    {
        var total = AuditResult.None;
        var fired = FaultCatalogue.Storm.ToDictionary(name => name, _ => 0L);
        for (var seed = 1; seed <= 200; seed++)
        {
            var result = FaultExam.Run(Path.Combine(folder, $"{seed}"), seed, FaultSet.Create(["all"], seed));
            total += result.Audit;
            foreach (var (name, count) in result.Fired)
                fired[name] += count;
            Assert.True(result.CameToRest, $"seed {seed}: not everything was acknowledged after the faults had ended");
            Assert.True(result.Audit.Problems.Count == 0, $"seed {seed}: {string.Join("; ", result.Audit.Problems)}");
        }

        output.WriteLine(
            $"{total} doubled {total.Doubled} false {total.False} lost {total.Lost} given up {total.GivenUp}"
        );
        output.WriteLine(string.Join(", ", fired.Select(f => $"{f.Key} {f.Value}")));
        Assert.Equal((0, 0, 0), (total.Lost, total.Doubled, total.False));
        Assert.All(fired, f => Assert.True(f.Value >= 50, $"{f.Key} happened {f.Value} times only"));
    }

    [Fact]
    public void Without_faults_every_event_is_recorded_and_no_gap_is_told_of()
    {
        for (var seed = 1; seed <= 4; seed++)
        {
            var result = FaultExam.Run(Path.Combine(folder, $"{seed}"), seed, FaultSet.None);
            Assert.True(result.CameToRest);
            Assert.Empty(result.Audit.Problems);
            Assert.True(result.Audit.Happened > 50);
            Assert.Equal(result.Audit.Happened, result.Audit.Recorded);
        }
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
