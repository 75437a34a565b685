using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Worker.Tests.Sessions;

namespace PupilBridge.Worker.Tests;

public sealed class SwitchOffTests
{
    private static readonly SerialNumber Serial = new("T-100");
    private static readonly PersonId Who = new("MK");

    [Theory]
    [InlineData(CommandAnswer.Ok, SwitchOffResult.Done, CommandOutcome.Done)]
    [InlineData(CommandAnswer.Refused, SwitchOffResult.Refused, CommandOutcome.Refused)]
    [InlineData(CommandAnswer.Unknown, SwitchOffResult.Cannot, CommandOutcome.Unknown)]
    public async Task What_the_instrument_answers_is_told_and_journalled_with_who_wished_it(
        CommandAnswer answer,
        SwitchOffResult expected,
        CommandOutcome journalled
    )
    {
        await using var bench = new BridgeBench();
        bench.Instrument.Answers = answer;
        await bench.Live();

        var ending = await bench.Bridge.SwitchOffAsync(Serial, Who).WaitAsync(TimeSpan.FromSeconds(60));

        Assert.Equal(expected, ending.Result);
        Assert.Equal(expected == SwitchOffResult.Done, ending.Reason.Length == 0);
        await Eventually.Is(() => BridgeTests.Entries(bench).OfType<CommandEnded>().Any());
        Assert.Equal(Who, Assert.Single(BridgeTests.Entries(bench).OfType<CommandWished>()).Who);
        Assert.Equal(journalled, Assert.Single(BridgeTests.Entries(bench).OfType<CommandEnded>()).Outcome);
    }

    [Fact]
    public async Task An_instrument_that_never_carries_it_out_ends_the_wait_without_a_reply_and_is_busy_for_the_next()
    {
        await using var bench = new BridgeBench();
        await bench.Live();

        var first = await bench.Bridge.SwitchOffAsync(Serial, Who).WaitAsync(TimeSpan.FromSeconds(60));
        var second = await bench.Bridge.SwitchOffAsync(Serial, Who).WaitAsync(TimeSpan.FromSeconds(60));

        Assert.Equal((SwitchOffResult.NoReply, SwitchOffResult.Busy), (first.Result, second.Result));
        Assert.Contains("by hand", first.Reason, StringComparison.Ordinal);
        Assert.Contains("try again", second.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_instrument_that_cannot_is_not_asked()
    {
        await using var bench = new BridgeBench(new TestInstrument(abilities: InstrumentAbilities.MarkKeys));
        await bench.Live();

        var ending = await bench.Bridge.SwitchOffAsync(Serial, Who);

        Assert.Equal(SwitchOffResult.Cannot, ending.Result);
        Assert.Contains("T-100", ending.Reason, StringComparison.Ordinal);
        Assert.Empty(BridgeTests.Entries(bench).OfType<CommandWished>());
    }

    [Fact]
    public async Task An_instrument_that_is_not_connected_is_not_asked()
    {
        await using var bench = new BridgeBench();
        await bench.Live();

        var nobody = await bench.Bridge.SwitchOffAsync(new SerialNumber("T-999"), Who);
        await bench.Instrument.DisposeAsync();
        await Eventually.Is(() => bench.Bridge.Board.Look().Instruments.All(live => !live.IsConnected));
        var gone = await bench.Bridge.SwitchOffAsync(Serial, Who);

        Assert.Equal(SwitchOffResult.NotConnected, nobody.Result);
        Assert.Equal(SwitchOffResult.NotConnected, gone.Result);
        Assert.Empty(BridgeTests.Entries(bench).OfType<CommandWished>());
    }

    [Fact]
    public async Task Who_gives_up_waiting_does_not_undo_the_wish()
    {
        await using var bench = new BridgeBench();
        await bench.Live();
        using var given = new CancellationTokenSource();

        var waiting = bench.Bridge.SwitchOffAsync(Serial, Who, given.Token);
        await Eventually.Is(() => BridgeTests.Entries(bench).OfType<CommandWished>().Any());
        await given.CancelAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => waiting);
        await Eventually.Is(() => BridgeTests.Entries(bench).OfType<CommandEnded>().Any());
    }
}
