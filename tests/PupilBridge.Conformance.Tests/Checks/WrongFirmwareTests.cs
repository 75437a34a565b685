using PupilBridge.Conformance.Checks;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>Each wrong firmware must be found by the check that names its section.</summary>
public sealed class WrongFirmwareTests
{
    public static TheoryData<string> Wrong => new(WrongFirmware.All.Select(w => w.Name));

    [Theory]
    [MemberData(nameof(Wrong))]
    public async Task It_is_found_by_the_check_of_its_section(string name)
    {
        var wrong = WrongFirmware.All.Single(w => w.Name == name);
        var misbehaviour = wrong.Make();
        var wire = new SteppedWire(wrong.Model, misbehaviour, wrong.Options);
        var report = await GoodInstrumentTests.Run(wire, withHands: true, enduranceSeconds: 60);
        Assert.True(wrong.IsInside || misbehaviour.Changed > 0, "It never did anything wrong.");
        Assert.False(report.IsClean);
        var found = report.Results.Single(r => r.Check.Key == wrong.FoundBy);
        Assert.True(
            found.Outcome == CheckOutcome.Failed,
            string.Join(
                '\n',
                GoodInstrumentTests
                    .Not(CheckOutcome.Passed, report)
                    .Select(GoodInstrumentTests.Describe)
                    .Prepend(GoodInstrumentTests.Describe(found))
            )
        );
        Assert.NotEmpty(found.Saw);
    }

    [Fact]
    public void Each_check_is_known_to_find_something() =>
        Assert.Empty(
            CheckCatalogue
                .All.Select(c => c.Key)
                .Except(WrongFirmware.All.Select(w => w.FoundBy), StringComparer.Ordinal)
        );
}
