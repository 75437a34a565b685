using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links;

public class InstrumentLinkTests
{
    [Fact]
    public void Alone_it_says_only_its_heartbeat_and_keeps_what_happens()
    {
        var rig = new InstrumentRig();
        Assert.Equal(["BEAT,0,1,0,-"], rig.SwitchOn());
        Assert.Empty(rig.Happen());
        Assert.Empty(rig.Wait(30));
        Assert.Equal(1, rig.State.KeptCount);
        Assert.Equal(InstrumentLinkPhase.Alone, rig.State.Phase);
    }

    [Fact]
    public void Greeted_it_presents_itself_beats_and_sends_all_it_keeps_in_order()
    {
        var rig = new InstrumentRig();
        rig.SwitchOn();
        rig.Happen(5_000);
        rig.Happen(5_010);
        Assert.Equal(
            [
                "ID,1,QA-0001,Quay-A,1.4.0,MLPO,3,0,-",
                "STOP,1,IDLE,-",
                "STOP,2,MEASURE,-",
                "STOP,3,SEQUENCE,DIRECT",
                "SCALE,R,200,OUT,10,0,12000",
                "SCALE,L,200,OUT,10,0,12000",
                "BEAT,0,1,2,-",
                "EV,1,0,REST,R,5000",
                "EV,2,0,REST,R,5010",
            ],
            rig.Hear(HostLine.Who(Known.Host, 1, 1))
        );
        Assert.Equal(["EV,3,0,REST,R,5020"], rig.Happen(5_020));
        Assert.Equal(InstrumentLinkPhase.Waiting, rig.State.Phase);
    }

    [Fact]
    public void An_acknowledgement_frees_and_gets_no_reply()
    {
        var rig = InstrumentRig.Greeted();
        rig.Happen();
        rig.Happen();
        Assert.Empty(rig.Ack(1));
        Assert.Equal((1, 1, Known.Host), (rig.State.KeptCount, rig.State.Acknowledged, rig.State.AcknowledgedBy));
        rig.Ack(2);
        Assert.Equal(InstrumentLinkPhase.Idle, rig.State.Phase);
        Assert.Empty(rig.Wait(9));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public void An_acknowledgement_of_nothing_or_of_what_never_happened_frees_nothing(long sequence)
    {
        var rig = InstrumentRig.Greeted();
        rig.Happen();
        rig.Happen();
        rig.Ack(sequence);
        Assert.Equal(2, rig.State.KeptCount);
    }

    [Fact]
    public void An_acknowledgement_of_another_boot_frees_nothing()
    {
        var rig = InstrumentRig.Greeted();
        rig.Happen();
        rig.Ack(1, boot: Known.NextBoot);
        Assert.Equal(1, rig.State.KeptCount);
    }

    [Fact]
    public void Unacknowledged_it_sends_everything_again_every_two_seconds_with_the_same_bytes()
    {
        var rig = InstrumentRig.Greeted();
        var first = rig.Happen();
        rig.Happen(6_000);
        Assert.Empty(rig.Wait(1.9));
        var again = rig.Wait(0.2);
        Assert.Equal(first.Append("EV,2,0,REST,R,6000"), again);
        Assert.Equal(again, rig.Wait(2));
    }

    [Fact]
    public void On_request_it_sends_from_the_number_asked_for()
    {
        var rig = InstrumentRig.Greeted();
        for (var happened = 0; happened < 4; happened++)
            rig.Happen();
        Assert.Equal(["EV,3,0,REST,R,5000", "EV,4,0,REST,R,5000"], rig.Resend(3));
        Assert.Empty(rig.Resend(5));
    }

    [Fact]
    public void Asked_for_what_it_no_longer_keeps_it_says_so_at_once()
    {
        var rig = InstrumentRig.Greeted();
        rig.Happen();
        rig.Happen();
        rig.Ack(1);
        Assert.Equal(["BEAT,0,2,2,-", "EV,2,0,REST,R,5000"], rig.Resend(1));
    }

    [Fact]
    public void Overflow_becomes_one_growing_gap_at_the_front()
    {
        var rig = new InstrumentRig(capacity: 3);
        rig.SwitchOn();
        for (var happened = 0; happened < 6; happened++)
            rig.Happen();
        Assert.Equal((3, 1, 6), (rig.State.KeptCount, rig.State.OldestKept, rig.State.Last));
        var said = rig.Hear(HostLine.Who(Known.Host, 1, 1));
        Assert.Equal(["EV,4,0,GAP,1", "EV,5,0,REST,R,5000", "EV,6,0,REST,R,5000"], said[^3..]);
    }

    [Fact]
    public void A_gap_shrinks_from_below_and_goes_when_it_is_acknowledged()
    {
        var rig = InstrumentRig.Greeted(capacity: 3);
        for (var happened = 0; happened < 6; happened++)
            rig.Happen();
        rig.Ack(2);
        Assert.Equal(["EV,4,0,GAP,3", "EV,5,0,REST,R,5000", "EV,6,0,REST,R,5000"], rig.Resend(3));
        Assert.Equal(3, rig.State.OldestKept);
        rig.Ack(4);
        Assert.Equal((2, 5), (rig.State.KeptCount, rig.State.OldestKept));
    }

    [Fact]
    public void A_gap_shrinks_even_by_its_first_number_alone()
    {
        var rig = InstrumentRig.Greeted(capacity: 3);
        for (var happened = 0; happened < 6; happened++)
            rig.Happen();
        rig.Ack(1);
        Assert.Equal("EV,4,0,GAP,2", rig.Resend(2)[0]);
    }

    [Fact]
    public void An_acknowledgement_in_the_middle_of_sending_ends_what_it_covers()
    {
        var rig = InstrumentRig.Greeted(bytesPerSecond: 1_000);
        for (var happened = 0; happened < 20; happened++)
            rig.Happen();
        Assert.Equal(InstrumentLinkPhase.Sending, rig.State.Phase);
        Assert.Empty(rig.Ack(20));
        Assert.Equal(InstrumentLinkPhase.Idle, rig.State.Phase);
        Assert.Empty(rig.Wait(5));
    }

    [Fact]
    public void Switching_on_forgets_everything_but_the_numbers_start_anew()
    {
        var rig = InstrumentRig.Greeted();
        rig.Happen();
        rig.Ack(1);
        rig.SwitchOn(Known.NextBoot);
        Assert.Equal((0, 0, 0), (rig.State.KeptCount, (int)rig.State.Last, (int)rig.State.Acknowledged));
        Assert.False(rig.State.Holder.IsKnown);
    }

    [Fact]
    public void Nothing_follows_off()
    {
        var rig = InstrumentRig.Greeted();
        rig.Happen(InstrumentEvent.SwitchedOff(rig.Tick));
        Assert.Empty(rig.Happen());
        Assert.Equal(1, rig.State.Last);
        rig.Give(new InstrumentLinkInput.PowerCut(rig.Now, rig.Tick));
        Assert.Null(rig.State.NextDue);
        Assert.Empty(rig.Hear(HostLine.Who(Known.Host, 1, 1)));
    }

    [Fact]
    public void On_a_slow_line_it_never_has_more_than_a_moment_waiting_to_leave()
    {
        var rig = InstrumentRig.Greeted(bytesPerSecond: 11_520);
        rig.Give(new InstrumentLinkInput.LinkLost(rig.Now, rig.Tick));
        for (var happened = 0; happened < 500; happened++)
            rig.Happen();
        rig.Give(new InstrumentLinkInput.LinkBack(rig.Now, rig.Tick));
        var atOnce = rig.Hear(HostLine.Who(Known.Host, 1, 1)).Count(l => l.StartsWith("EV", StringComparison.Ordinal));
        Assert.InRange(atOnce, 1, 20);
        Assert.Equal(InstrumentLinkPhase.Sending, rig.State.Phase);
        // A request in the middle is obeyed within that moment, not behind the whole backlog.
        rig.Wait(0.5);
        var again = rig.Resend(1).Concat(rig.Wait(0.1)).ToList();
        Assert.Contains(again, l => l.StartsWith("EV,1,", StringComparison.Ordinal));
        Assert.InRange(again.Count, 1, 40);
    }

    [Fact]
    public void A_cable_that_comes_back_while_the_current_is_off_is_in_when_it_is_switched_on()
    {
        var rig = InstrumentRig.Greeted();
        rig.Give(new InstrumentLinkInput.LinkLost(rig.Now, rig.Tick));
        rig.Give(new InstrumentLinkInput.PowerCut(rig.Now, rig.Tick));
        rig.Give(new InstrumentLinkInput.LinkBack(rig.Now, rig.Tick));
        Assert.Equal(["BEAT,000000000000004D,0,1,0,-"], rig.SwitchOn(new BootNumber(77)));
        Assert.StartsWith("ID,", rig.Hear(HostLine.Who(Known.Host, 1, 1))[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Live_positions_are_thinned_and_never_delay_events()
    {
        var rig = InstrumentRig.Greeted();
        var said = 0;
        for (var step = 0; step < 100; step++)
        {
            said += rig.Give(new InstrumentLinkInput.Moved(Eye.Left, new(step), rig.Now, rig.Tick)).Length;
            rig.Wait(0.01);
        }

        Assert.Equal(25, said);
        rig.Give(new InstrumentLinkInput.LinkLost(rig.Now, rig.Tick));
        Assert.Empty(rig.Give(new InstrumentLinkInput.Moved(Eye.Left, new(1), rig.Now, rig.Tick)));
    }

    [Fact]
    public void An_event_of_a_newer_kind_is_kept_and_sent_like_any_other()
    {
        var rig = InstrumentRig.Greeted();
        Assert.Equal(
            ["EV,1,0,BLINK,R,3"],
            rig.Give(new InstrumentLinkInput.HappenedVerbatim("BLINK,R,3", rig.Now, rig.Tick))
        );
        Assert.Throws<ArgumentException>(() =>
            rig.Give(new InstrumentLinkInput.HappenedVerbatim("BLINK\n", rig.Now, rig.Tick))
        );
    }

    [Fact]
    public void The_battery_stands_in_the_heartbeat()
    {
        var rig = InstrumentRig.Greeted();
        rig.Give(new InstrumentLinkInput.BatteryIs(81, rig.Now, rig.Tick));
        Assert.Equal(["BEAT,0,1,0,81"], rig.SwitchOn());
    }
}
