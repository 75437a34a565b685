using PupilBridge.Instrument;
using PupilBridge.Worker;

namespace PupilBridge.Clinic.Tests.Lanes;

public sealed class SwitchingOffTests
{
    [Theory]
    [InlineData(SwitchOffResult.Done, true, "is switching itself off")]
    [InlineData(SwitchOffResult.NotConnected, false, "not connected")]
    [InlineData(SwitchOffResult.Cannot, false, "cannot switch itself off")]
    [InlineData(SwitchOffResult.Refused, false, "refused")]
    [InlineData(SwitchOffResult.Busy, false, "busy")]
    [InlineData(SwitchOffResult.NoReply, false, "did not answer")]
    public async Task The_outcome_is_told_with_what_to_do(SwitchOffResult result, bool done, string words)
    {
        using var lane = new LaneScene();
        lane.Clinic.House.SwitchOffEnding = new SwitchOffEnding(result, "");

        var outcome = await lane.Desk.SwitchOffAsync(Support.Clinic.Serial, "MK", default);

        Assert.Equal(done, outcome.Done);
        Assert.Contains(words, outcome.Words, StringComparison.Ordinal);
        Assert.StartsWith("QA-0001", outcome.Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_board_says_whether_an_instrument_can()
    {
        using var can = new LaneScene(InstrumentAbilities.SwitchOff);
        using var cannot = new LaneScene();

        Assert.True((await can.LookAsync()).CanSwitchOff);
        can.Show(live => live with { IsConnected = false });
        Assert.False((await can.LookAsync()).CanSwitchOff);
        Assert.False((await cannot.LookAsync()).CanSwitchOff);
    }
}
