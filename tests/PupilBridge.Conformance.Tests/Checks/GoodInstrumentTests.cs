using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>The simulator, which keeps to the protocol: nothing may be found against it.</summary>
public sealed class GoodInstrumentTests
{
    public static TheoryData<string> Models => new(InstrumentModels.All.Select(m => m.Name));

    [Theory]
    [MemberData(nameof(Models))]
    public async Task With_hands_at_it_everything_that_it_claims_is_examined_and_passes(string model)
    {
        var wire = new SteppedWire(InstrumentModels.Find(model)!);
        var report = await Run(wire, withHands: true, enduranceSeconds: 200);
        Assert.Empty(
            Not(CheckOutcome.Passed, report).Where(r => r.Saw != "The instrument does not claim it.").Select(Describe)
        );
        Assert.Contains("QA-0042", report.Instrument, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public async Task Without_hands_nothing_fails_and_what_was_not_examined_says_why(string model)
    {
        var report = await Run(new SteppedWire(InstrumentModels.Find(model)!), withHands: false);
        Assert.True(report.IsClean, string.Join('\n', Not(CheckOutcome.Passed, report).Select(Describe)));
        var skipped = Not(CheckOutcome.Passed, report);
        Assert.Contains(
            skipped,
            r => r.Check.Key == "kinds.lamp" && r.Saw.Contains("--with-person", StringComparison.Ordinal)
        );
        Assert.Contains(skipped, r => r.Check.Key == "overflow.gap");
        Assert.True(skipped.Count < 16, string.Join('\n', skipped.Select(Describe)));
    }

    [Theory]
    [InlineData(0.9)]
    [InlineData(1.37)]
    [InlineData(2.6)]
    public async Task What_happens_at_it_in_the_middle_of_a_run_is_not_charged_to_it(double everySeconds)
    {
        var restless = WrongFirmware.Every(everySeconds, (instrument, _) => instrument.Fixate(!instrument.NearTarget));
        var report = await Run(new SteppedWire(InstrumentModels.QuayA, restless), withHands: false);
        Assert.True(report.IsClean, string.Join('\n', Not(CheckOutcome.Passed, report).Select(Describe)));
    }

    [Theory]
    [InlineData("Quay-A")]
    [InlineData("Quay-B")]
    public async Task An_exam_that_is_played_meanwhile_and_that_nobody_records_is_not_charged_to_it(string model)
    {
        var wire = new SteppedWire(InstrumentModels.Find(model)!);
        wire.Exam = new SimulatedExam(NamedScenarios.All[0], wire.Instrument) { GoesOnWhileSpeaking = true };
        var report = await Run(wire, withHands: false, enduranceSeconds: 200);
        Assert.NotNull(wire.Exam.AboutToSay);
        Assert.True(report.IsClean, string.Join('\n', Failed(report).Select(Describe)));
        foreach (var key in (string[])["tick.rate", "beat.each-second", "line.prompt"])
        {
            Assert.Equal(CheckOutcome.Passed, report.Results.Single(r => r.Check.Key == key).Outcome);
        }
    }

    [Fact]
    public async Task Ticks_that_wait_for_the_record_are_found()
    {
        var wire = new SteppedWire(InstrumentModels.QuayA);
        wire.Exam = new SimulatedExam(NamedScenarios.All[0], wire.Instrument);
        var report = await Run(wire, withHands: false, enduranceSeconds: 200);
        Assert.Contains(Failed(report), r => r.Check.Key == "beat.each-second");
        Assert.Contains(Failed(report), r => r.Check.Key == "tick.rate");
    }

    [Fact]
    public async Task A_run_without_leave_to_discard_acknowledges_nothing_of_an_exam()
    {
        var wire = new SteppedWire(InstrumentModels.QuayA);
        var first = await Run(wire, withHands: true);
        Assert.True(first.IsClean);
        var instrument = new SteppedWire(InstrumentModels.QuayA);
        instrument.Instrument.PressMark(PupilBridge.Instrument.Eye.Right, PupilBridge.Instrument.PupilEdge.Nasal);
        var report = await ConformanceRun.RunAsync(instrument, Plan() with { MayDiscard = false }, null, default);
        Assert.True(report.IsClean);
        // The first event is MODE and may go; the edge stays.
        Assert.InRange(instrument.Instrument.Link.OldestKept, 1, 2);
        Assert.False(instrument.Instrument.IsAllAcknowledged);
    }

    [Fact]
    public void Each_check_names_its_section_and_stands_once() =>
        Assert.All(
            CheckCatalogue.All.GroupBy(c => c.Key),
            group =>
            {
                Assert.Single(group);
                Assert.Matches("^[0-9]+(\\.[0-9])?$", group.Single().Section);
            }
        );

    internal static CheckPlan Plan() => new(new DateTimeOffset(2026, 11, 25, 8, 0, 0, TimeSpan.Zero));

    internal static Task<CheckReport> Run(SteppedWire wire, bool withHands, double enduranceSeconds = 6)
    {
        var hands = new SimulatedHands(wire.Instrument);
        wire.Beside = hands.Act;
        return ConformanceRun.RunAsync(
            wire,
            Plan() with
            {
                Hands = withHands ? hands : null,
                Serial = "QA-0042",
                MayDiscard = true,
                Endurance = TimeSpan.FromSeconds(enduranceSeconds),
            },
            null,
            CancellationToken.None
        );
    }

    internal static List<CheckResult> Not(CheckOutcome outcome, CheckReport report) =>
        [.. report.Results.Where(r => r.Outcome != outcome)];

    internal static List<CheckResult> Failed(CheckReport report) =>
        [.. report.Results.Where(r => r.Outcome == CheckOutcome.Failed)];

    internal static string Describe(CheckResult r) => $"{r.Check.Key}: {r.Outcome}: {r.Saw} {r.Line}";
}
