using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Lines;

namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class SwitchingOffTests
{
    [Fact]
    public async Task An_instrument_that_can_is_asked_and_the_outcome_is_told()
    {
        using var lane = new LaneScene(InstrumentAbilities.SwitchOff);
        Assert.True((await lane.LookAsync()).CanSwitchOff);

        var done = await lane.Desk.SwitchOffAsync(Support.Clinic.Serial, "MK", default);
        lane.Clinic.House.SwitchOffEnding = new CommandEnding(2, CommandOutcome.Refused, "A block is running.");
        var refused = await lane.Desk.SwitchOffAsync(Support.Clinic.Serial, "MK", default);

        Assert.Equal(new SwitchOffOutcome(true, "QA-0001 is switching itself off."), done);
        Assert.False(refused.Done);
        Assert.EndsWith("A block is running.", refused.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_that_cannot_or_is_not_there_is_to_be_switched_off_by_hand()
    {
        using var lane = new LaneScene();
        var cannot = await lane.Desk.SwitchOffAsync(Support.Clinic.Serial, "MK", default);
        var away = await lane.Desk.SwitchOffAsync("QB-0002", "MK", default);

        Assert.Equal((false, false), (cannot.Done, away.Done));
        Assert.Contains("cannot switch itself off", cannot.Words, StringComparison.Ordinal);
        Assert.Contains("not connected", away.Words, StringComparison.Ordinal);
    }
}
