using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Scenarios;
using Xunit.Sdk;

namespace PupilBridge.Simulator.Tests.Lines;

/// <summary>The check itself must be able to fail.</summary>
public class OracleCheckTests
{
    private readonly WholeExam whole = WholeExam.Run(InstrumentModels.QuayA, NamedScenarios.All[0]);

    [Fact]
    public void A_missing_event_is_found() => Breaks(r => r.RemoveAt(20));

    [Fact]
    public void A_missing_tail_is_found() => Breaks(r => r.RemoveAt(r.Count - 1));

    [Fact]
    public void A_doubled_event_is_found() => Breaks(r => r.Insert(20, r[20]));

    [Fact]
    public void An_altered_event_is_found() => Breaks(r => r[20] = r[20] with { Text = "REST,R,1" });

    [Fact]
    public void An_altered_time_is_found() => Breaks(r => r[20] = r[20] with { Tick = r[20].Tick + 1 });

    [Fact]
    public void A_gap_that_the_instrument_does_not_admit_is_found() =>
        Breaks(r => r[20] = r[20] with { Text = "GAP,21" });

    private void Breaks(Action<List<(string Boot, long First, long Last, long Tick, string Text)>> harm)
    {
        OracleCheck.Holds(whole.Exam.Instrument.Truth, whole.Host);
        harm(whole.Host.Recorded);
        Assert.ThrowsAny<XunitException>(() => OracleCheck.Holds(whole.Exam.Instrument.Truth, whole.Host));
    }
}
