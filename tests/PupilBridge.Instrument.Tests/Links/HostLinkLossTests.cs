using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links;

/// <summary>What is lost for good: gaps, what is no longer kept, and boots that ended.</summary>
public class HostLinkLossTests
{
    [Fact]
    public void A_gap_is_clipped_to_what_is_missing()
    {
        var rig = HostRig.Connected(durable: 3);
        var lost = Assert.Single(rig.Hear(Known.Gap(1, 8)).Losses());
        Assert.Equal((4L, (long?)8, LossCause.MemoryOverflow), (lost.First, lost.Last, lost.Cause));
        Assert.False(lost.Raw.IsEmpty);
        // It grew meanwhile: only the new part counts.
        var more = Assert.Single(rig.Hear(Known.Gap(1, 9)).Losses());
        Assert.Equal((9L, (long?)9), (more.First, more.Last));
        Assert.Empty(rig.Hear(Known.Gap(1, 9)).Losses());
        Assert.Equal([10], rig.Hear(Known.Rest(10)).Accepted());
        Assert.Equal(0, rig.State.Counters.Conflicts);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void A_gap_that_begins_later_is_before_its_turn(long first)
    {
        var rig = HostRig.Connected();
        var outputs = rig.Hear(Known.Gap(first, 8));
        Assert.Empty(outputs.Losses());
        Assert.Equal([HostLine.Resend(Known.Host, Known.Boot, 1)], outputs.Sent());
    }

    [Fact]
    public void An_event_that_turns_up_after_it_was_lost_is_told_as_a_conflict()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Gap(1, 4));
        Assert.Single(rig.Hear(Known.Rest(3)).OfType<HostLinkOutput.Conflicting>());
    }

    [Fact]
    public void A_lost_tail_shows_in_the_heartbeat()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        Assert.Empty(rig.HearBeat(1, 2).Sent());
        rig.Wait(1);
        Assert.Equal([HostLine.Resend(Known.Host, Known.Boot, 2)], rig.HearBeat(1, 2).Sent());
    }

    [Fact]
    public void What_the_instrument_no_longer_keeps_is_lost()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        var lost = Assert.Single(rig.HearBeat(6, 9).Losses());
        Assert.Equal((2L, (long?)5, LossCause.NoLongerKept), (lost.First, lost.Last, lost.Cause));
        Assert.Equal([6], rig.Hear(Known.Rest(6)).Accepted());
    }

    [Theory]
    [InlineData(0x0BADCAFEu, 9, LossCause.TakenByOtherHost)]
    [InlineData(0x0BADCAFEu, 5, LossCause.TakenByOtherHost)]
    [InlineData(0x00C0FFEEu, 9, LossCause.MissingFromJournal)]
    public void Events_that_were_acknowledged_but_are_not_in_the_journal_are_lost(uint by, long last, LossCause cause)
    {
        var rig = new HostRig();
        rig.Open();
        rig.Present(acknowledged: last, by: new HostId(by));
        var placed = rig.Place(4);
        var lost = Assert.Single(placed.Losses());
        Assert.Equal((5L, (long?)last, cause), (lost.First, lost.Last, lost.Cause));
        Assert.Equal([HostLine.Ack(Known.Host, Known.Boot, 4)], placed.Sent());
        Assert.Equal([last + 1], rig.Hear(Known.Rest(last + 1)).Accepted());
    }

    [Fact]
    public void What_was_acknowledged_and_is_in_the_journal_is_no_loss()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Present(acknowledged: 4, by: Known.OtherHost);
        Assert.Empty(rig.Place(4).Losses());
    }

    [Fact]
    public void Another_boot_is_asked_who_it_is_and_the_old_one_ends_open()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        rig.Wait(1.5);
        Assert.Equal([HostLineKind.Who], rig.HearBeat(1, 1, Known.NextBoot).Sent().Select(l => l.Kind));
        var met = rig.Present(boot: Known.NextBoot);
        var lost = Assert.Single(met.Losses());
        Assert.Equal(
            (Known.Boot, 2L, (long?)null, LossCause.BootEnded),
            (lost.Boot, lost.First, lost.Last, lost.Cause)
        );
        // The journal may not know yet that the boot ended: it is not told twice.
        Assert.Empty(rig.Place(0, boot: Known.NextBoot, open: [new OpenBoot(Known.Boot, 1)]).Losses());
        Assert.Equal([1], rig.Hear(Known.Rest(1) with { Boot = Known.NextBoot }).Accepted());
    }

    [Fact]
    public void A_boot_that_was_switched_off_is_whole()
    {
        var rig = HostRig.Connected();
        rig.Hear(InstrumentEvent.SwitchedOff(new Tick(5)) with { Boot = Known.Boot, Sequence = 1 });
        rig.Wait(1.5);
        rig.HearBeat(1, 0, Known.NextBoot);
        Assert.Empty(rig.Present(boot: Known.NextBoot).Losses());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void That_a_boot_was_switched_off_is_known_after_a_restart_and_after_a_failed_write(bool restart)
    {
        var rig = restart ? HostRig.Connected(durable: 1, switchedOff: true) : HostRig.Connected();
        if (!restart)
        {
            rig.Hear(InstrumentEvent.SwitchedOff(new Tick(5)) with { Boot = Known.Boot, Sequence = 1 });
            rig.MakeDurable(1);
            rig.Give(new HostLinkInput.WritingFailed(rig.Now));
        }

        Assert.Empty(rig.Present(boot: Known.NextBoot).Losses());
    }

    [Fact]
    public void Boots_that_the_journal_left_open_are_closed_at_the_next_meeting()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Present();
        var lost = Assert.Single(rig.Place(0, open: [new OpenBoot(Known.NextBoot, 12)]).Losses());
        Assert.Equal((Known.NextBoot, 13L, (long?)null), (lost.Boot, lost.First, lost.Last));
    }
}
