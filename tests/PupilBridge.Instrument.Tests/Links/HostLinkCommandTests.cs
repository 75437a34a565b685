using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links;

public class HostLinkCommandTests
{
    private static readonly InstrumentCommand Train = InstrumentCommand.Train(Block.Direct, 3, 1000, 3000);

    [Theory]
    [InlineData("OK", CommandOutcome.Done)]
    [InlineData("REFUSED", CommandOutcome.Refused)]
    [InlineData("UNKNOWN", CommandOutcome.Unknown)]
    public void A_reply_ends_the_command(string answer, CommandOutcome outcome)
    {
        var rig = HostRig.Connected();
        Assert.Equal([HostLine.Ask(Known.Host, 7, Train)], Wish(rig, 7).Sent());
        var ended = rig.Hear($"DONE,00C0FFEE,7,{answer},because");
        Assert.Equal(new HostLinkOutput.CommandEnded(7, outcome, "because"), Assert.Single(ended));
    }

    [Fact]
    public void It_tries_three_times_a_second_apart_with_the_same_number()
    {
        var rig = HostRig.Connected();
        Wish(rig, 7);
        Assert.Equal([HostLine.Ask(Known.Host, 7, Train)], rig.Wait(1.1).Sent());
        rig.HearBeat(1, 0);
        Assert.Equal([HostLine.Ask(Known.Host, 7, Train)], rig.Wait(1).Sent());
        var ended = Assert.Single(rig.Wait(1).OfType<HostLinkOutput.CommandEnded>());
        Assert.Equal((7u, CommandOutcome.NoAnswer), (ended.Number, ended.Outcome));
    }

    [Fact]
    public void A_busy_instrument_is_asked_again()
    {
        var rig = HostRig.Connected();
        Wish(rig, 7);
        for (var round = 0; round < 3; round++)
        {
            Assert.Empty(rig.Hear("DONE,00C0FFEE,7,BUSY"));
            rig.Wait(1.01);
        }

        var ended = Assert.Single(rig.All.OfType<HostLinkOutput.CommandEnded>());
        Assert.Equal(CommandOutcome.Busy, ended.Outcome);
        Assert.Equal(3, rig.All.Sent().Count(l => l.Kind == HostLineKind.Command));
    }

    [Fact]
    public void The_second_wish_waits_for_the_first()
    {
        var rig = HostRig.Connected();
        Wish(rig, 7);
        Assert.Empty(Wish(rig, 8));
        Assert.Equal([HostLine.Ask(Known.Host, 8, Train)], rig.Hear("DONE,00C0FFEE,7,OK").Sent());
    }

    [Theory]
    [InlineData("DONE,00C0FFEE,6,OK")]
    [InlineData("DONE,0BADCAFE,7,OK")]
    public void A_reply_to_something_else_ends_nothing(string body)
    {
        var rig = HostRig.Connected();
        Wish(rig, 7);
        Assert.Empty(rig.Hear(body));
    }

    [Fact]
    public void Every_wish_ends_when_the_port_is_lost_and_says_whether_it_may_have_been_carried_out()
    {
        var rig = HostRig.Connected();
        Wish(rig, 7);
        Wish(rig, 8);
        var ended = rig.Close().OfType<HostLinkOutput.CommandEnded>().Select(e => (e.Number, e.Outcome));
        Assert.Equal([(7u, CommandOutcome.NoAnswer), (8u, CommandOutcome.NotSent)], ended);
        Assert.Equal(CommandOutcome.NotSent, Assert.Single(Wish(rig, 9).OfType<HostLinkOutput.CommandEnded>()).Outcome);
    }

    [Fact]
    public void A_command_does_not_survive_the_boot_it_was_meant_for()
    {
        var rig = HostRig.Connected();
        Wish(rig, 7);
        rig.Present(boot: Known.NextBoot);
        Assert.Equal(CommandOutcome.NoAnswer, Assert.Single(rig.All.OfType<HostLinkOutput.CommandEnded>()).Outcome);
    }

    private static System.Collections.Immutable.ImmutableArray<HostLinkOutput> Wish(HostRig rig, uint number) =>
        rig.Give(new HostLinkInput.Wish(number, Train, rig.Now));
}
