using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Scenarios;
using PupilBridge.Simulator.Tests.Lines;

namespace PupilBridge.Simulator.Tests.Faults;

/// <summary>Whole exams under faults, against the plain host: what was recorded equals the oracle, or is a gap it admits.</summary>
public class FaultyExamTests
{
    public static TheoryData<string> Storm => [.. FaultCatalogue.Storm];

    [Theory]
    [MemberData(nameof(Storm))]
    public void Each_fault_really_happens_and_nothing_is_lost_unsaid(string name)
    {
        var fired = 0L;
        for (var seed = 1; seed <= 4; seed++)
        {
            var faults = FaultSet.Create([name], seed);
            var whole = Run(seed, faults);
            fired += faults.Fired[name];
            OracleCheck.Holds(whole.Exam.Instrument.Truth, whole.Host);
        }

        Assert.True(fired >= 1, $"{name} never happened");
    }

    [Fact]
    public void All_at_once_in_twenty_exams_each_happens_and_nothing_is_lost_unsaid()
    {
        var fired = FaultCatalogue.Storm.ToDictionary(n => n, _ => 0L);
        for (var seed = 1; seed <= 20; seed++)
        {
            var faults = FaultSet.Create(["all"], seed);
            var whole = Run(seed, faults);
            OracleCheck.Holds(whole.Exam.Instrument.Truth, whole.Host);
            foreach (var (name, count) in faults.Fired)
            {
                fired[name] += count;
            }
        }

        Assert.All(fired, f => Assert.True(f.Value >= 5, $"{f.Key} happened {f.Value} times"));
    }

    [Fact]
    public void The_same_seed_gives_the_same_storm()
    {
        var (one, two) = (FaultSet.Create(["all"], 3), FaultSet.Create(["all"], 3));
        Assert.Equal(Run(3, one).Host.Recorded, Run(3, two).Host.Recorded);
        Assert.Equal(one.Fired, two.Fired);
    }

    private static WholeExam Run(int seed, FaultSet faults) =>
        WholeExam.Run(
            seed % 2 == 0 ? InstrumentModels.QuayA : InstrumentModels.QuayB,
            NamedScenarios.FromSeed(seed),
            faults
        );
}
