using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links;

/// <summary>One well-formed but false line does not cost the rest of a boot; a true loss of any size is taken all the same.</summary>
public class HostLinkDoubtTests
{
    private const long Far = (1L << 53) - 1;

    [Fact]
    public void A_gap_beyond_what_its_tick_allows_is_counted_told_and_asked_about_and_events_go_on()
    {
        var rig = After(3);
        var told = rig.Hear(Known.Gap(4, Far) with { Tick = new Tick(400) });
        Assert.False(Assert.Single(told.OfType<HostLinkOutput.LossDoubted>()).Possible);
        Assert.Equal(4, Assert.Single(told.OfType<HostLinkOutput.Send>()).Line.Sequence);
        rig.Hear(Known.Gap(4, Far) with { Tick = new Tick(400) });
        Assert.Equal(2, rig.State.Counters.Doubted);
        AssertGoesOn(rig, 4);
    }

    [Fact]
    public void A_heartbeat_whose_oldest_is_beyond_what_its_tick_allows_costs_nothing()
    {
        var rig = After(3);
        rig.HearBeat(Far, Far);
        rig.HearBeat(Far, Far);
        AssertGoesOn(rig, 4);
    }

    [Fact]
    public void A_false_gap_with_a_false_tick_costs_nothing_as_long_as_no_second_line_says_the_same()
    {
        var rig = After(3);
        rig.Hear(Known.Gap(4, Far) with { Tick = new Tick(long.MaxValue) });
        AssertGoesOn(rig, 4);
        rig.Hear(Known.Gap(5, Far) with { Tick = new Tick(long.MaxValue) });
        AssertGoesOn(rig, 5);
    }

    [Fact]
    public void An_identity_that_says_that_far_too_much_was_acknowledged_costs_nothing()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Present(acknowledged: Far, by: Known.OtherHost);
        rig.Place(0);
        rig.HearBeat(1, 3);
        AssertGoesOn(rig, 1);
    }

    [Fact]
    public void A_large_loss_is_taken_when_it_is_told_again()
    {
        var rig = After(3);
        rig.Hear(Known.Gap(4, 500_000));
        Assert.DoesNotContain(rig.All, o => o is HostLinkOutput.Lost);
        var lost = Assert.Single(rig.Hear(Known.Gap(4, 500_020)).OfType<HostLinkOutput.Lost>());
        Assert.Equal((4, 500_020), (lost.First, lost.Last));
        AssertGoesOn(rig, 500_021);
    }

    [Fact]
    public void What_another_host_acknowledged_is_taken_from_the_heartbeats_with_its_cause()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Present(acknowledged: 5_000, by: Known.OtherHost);
        rig.Place(0);
        Assert.DoesNotContain(rig.All, o => o is HostLinkOutput.Lost);
        Beat(rig, 5_001);
        Assert.DoesNotContain(rig.All, o => o is HostLinkOutput.Lost);
        var lost = Assert.Single(
            Beat(rig, 5_003).OfType<HostLinkOutput.Lost>(),
            l => l.Cause == LossCause.TakenByOtherHost
        );
        Assert.Equal((1, 5_000, Known.OtherHost), (lost.First, lost.Last, lost.OtherHost));
        var dropped = Assert.Single(rig.All.OfType<HostLinkOutput.Lost>(), l => l.Cause == LossCause.NoLongerKept);
        Assert.Equal((5_001, 5_002), (dropped.First, dropped.Last));
        AssertGoesOn(rig, 5_003);
    }

    private static System.Collections.Immutable.ImmutableArray<HostLinkOutput> Beat(HostRig rig, long oldest) =>
        rig.Hear(new InstrumentLine(new Heartbeat(Known.Boot, new Tick(600_000), oldest, oldest + 4, null)));

    private static HostRig After(int events)
    {
        var rig = HostRig.Connected();
        for (var i = 1; i <= events; i++)
            rig.Hear(Known.Rest(i));
        return rig;
    }

    private static void AssertGoesOn(HostRig rig, long expected)
    {
        Assert.Equal(expected, rig.State.Progress!.Expected);
        Assert.Equal(
            expected,
            Assert.Single(rig.Hear(Known.Rest(expected)).OfType<HostLinkOutput.Accept>()).Event.Sequence
        );
    }
}
