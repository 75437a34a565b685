using PupilBridge.Conformance.Checks;
using PupilBridge.Ports;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>
/// The simulated instrument with each fault of its catalogue, over memory: what finds it stands in docs/firmware-check.md, and
/// nothing else may be charged to it.
/// </summary>
public sealed class FaultTests
{
    private const double EnduranceSeconds = 120;

    public static TheoryData<string, long> Faults
    {
        get
        {
            var data = new TheoryData<string, long>();
            foreach (var fault in FaultCatalogue.All)
            {
                data.Add(fault.Name, 1);
                data.Add(fault.Name, 2);
            }

            return data;
        }
    }

    [Fact]
    public void Each_fault_has_a_row_and_each_row_names_checks_with_their_sections()
    {
        Assert.Equal(
            FaultCatalogue.All.Select(f => f.Name).Order(StringComparer.Ordinal),
            FaultRow.All.Select(r => r.Fault).Order(StringComparer.Ordinal)
        );
        Assert.All(
            FaultRow.All,
            row =>
            {
                Assert.Equal(row.Sections, row.FoundBy.Select(k => Check(k).Section).Distinct());
                Assert.All(row.Besides, key => Check(key));
            }
        );
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public async Task It_is_found_and_nothing_else_is_charged(string name, long seed)
    {
        var row = FaultRow.All.Single(r => r.Fault == name);
        var faults = FaultSet.Create([name], seed);
        var report = await Run(faults, seed);
        Assert.True(faults.Fired[name] > 0, "The fault never happened.");
        var failed = GoodInstrumentTests.Failed(report);
        var all = string.Join('\n', failed.Select(GoodInstrumentTests.Describe));
        var keys = failed.Select(r => r.Check.Key).ToList();
        // What speaks no version 1 cannot be examined, and so not fail; the report says that.
        var isExamined = name != FaultNames.NewerVersion;
        Assert.True(keys.Intersect(row.FoundBy).Any() == (isExamined && row.FoundBy.Count > 0), $"Not found. {all}");
        Assert.True(!keys.Except(row.FoundBy).Except(row.Besides).Any(), $"Something else is charged. {all}");
        Says(name, report);
    }

    [Fact]
    public async Task Over_usb_the_port_is_lost_with_the_cable()
    {
        var wire = Wire(InstrumentModels.QuayA, FaultSet.Create([FaultNames.Unplug], 1), isLostWithCable: true);
        await Assert.ThrowsAsync<PortLostException>(() => GoodInstrumentTests.Run(wire, withHands: true, 60));
    }

    [Fact]
    public async Task A_clock_that_drifts_within_500_millionths_keeps_to_the_protocol()
    {
        var wire = Wire(InstrumentModels.QuayA, FaultSet.Create([FaultNames.Drift], seed: 3));
        var report = await GoodInstrumentTests.Run(wire, withHands: true, EnduranceSeconds);
        Assert.InRange(Math.Abs(wire.Instrument.DriftPartsPerMillion), 200, 400);
        Assert.True(report.IsClean);
        Assert.Equal(CheckOutcome.Passed, Of(report, "tick.rate").Outcome);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task All_faults_at_once_end_no_run_and_hide_nothing(long seed)
    {
        var faults = FaultSet.Create(["all"], seed);
        var report = await Run(faults, seed);
        // Hands have filled the memory already, and slide the scales only for a while.
        string[] chancy = [FaultNames.Overflow, FaultNames.StuckScale];
        Assert.All(faults.Fired, f => Assert.True(f.Value > 0 || chancy.Contains(f.Key), f.Key));
        Assert.Equal(CheckOutcome.Failed, Of(report, "lines.whole").Outcome);
        Assert.Equal(CheckOutcome.Failed, Of(report, "events.boot").Outcome);
        Assert.Equal(CheckOutcome.Failed, Of(report, "kinds.readable").Outcome);
    }

    /// <summary>What the report must say in words.</summary>
    private static void Says(string name, CheckReport report)
    {
        (string Key, string Words)? expected = name switch
        {
            FaultNames.Flip or FaultNames.Drop or FaultNames.Doubled or FaultNames.Noise => (
                "lines.whole",
                "rather the line"
            ),
            FaultNames.Garbage or FaultNames.Overlong or FaultNames.Baud => ("lines.whole", "rather the line"),
            FaultNames.Delay => ("line.prompt", "the line stood still"),
            FaultNames.Split => ("receive.pieces", "The greeting was answered."),
            FaultNames.Unplug => ("endurance", "Silent for"),
            FaultNames.Reboot => ("endurance", "started anew"),
            FaultNames.PowerOff => ("endurance", "Then it started anew."),
            FaultNames.Overflow => ("overflow.gap", "By itself it lost events"),
            FaultNames.SerialClash => ("identity.serial", "It claims QA-0001"),
            FaultNames.NewerVersion => ("identity.complete", "It speaks versions 2 to 3 only"),
            _ => null,
        };
        if (expected is { } said)
        {
            var saw = Of(report, said.Key).Saw;
            Assert.True(saw.Contains(said.Words, StringComparison.Ordinal), saw);
        }
    }

    private static Task<CheckReport> Run(FaultSet faults, long seed)
    {
        var isOverflow = faults.Fired.Count == 1 && faults.Fired.ContainsKey(FaultNames.Overflow);
        var model = InstrumentModels.All[(int)(seed % InstrumentModels.All.Length)];
        // A memory that hands have filled already cannot overflow once more.
        return GoodInstrumentTests.Run(Wire(model, faults), withHands: !isOverflow, EnduranceSeconds);
    }

    private static SteppedWire Wire(InstrumentModel model, FaultSet faults, bool isLostWithCable = false) =>
        new(model, faults) { IsLostWithCable = isLostWithCable };

    private static CheckResult Of(CheckReport report, string key) => report.Results.Single(r => r.Check.Key == key);

    private static Check Check(string key) => CheckCatalogue.All.Single(c => c.Key == key);
}
