using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Tests.Wire;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Links;

public class HostLinkEventTests
{
    [Fact]
    public void Events_in_order_are_handed_over_verbatim_and_acknowledged_only_when_durable()
    {
        var rig = HostRig.Connected();
        var accept = Assert.IsType<HostLinkOutput.Accept>(Assert.Single(rig.Hear(Known.Rest(1))));
        Assert.Equal(Lines.Of(new InstrumentLine(Known.Rest(1)))[..^1], accept.Raw.ToArray());
        Assert.Equal([2], rig.Hear(Known.Rest(2)).Accepted());
        Assert.Empty(rig.All.Sent());
        Assert.Equal([HostLine.Ack(Known.Host, Known.Boot, 1)], rig.MakeDurable(1).Sent());
        Assert.Equal([HostLine.Ack(Known.Host, Known.Boot, 2)], rig.MakeDurable(2).Sent());
        Assert.Empty(rig.MakeDurable(2));
    }

    [Fact]
    public void More_than_was_handed_over_is_never_acknowledged()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        Assert.Equal([HostLine.Ack(Known.Host, Known.Boot, 1)], rig.MakeDurable(99).Sent());
    }

    [Fact]
    public void A_hole_is_asked_for_at_once_and_then_at_most_every_half_second()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        Assert.Equal([HostLine.Resend(Known.Host, Known.Boot, 2)], rig.Hear(Known.Rest(3)).Sent());
        Assert.Empty(rig.Hear(Known.Rest(4)));
        Assert.Equal([HostLine.Resend(Known.Host, Known.Boot, 2)], rig.Wait(0.6).Sent());
        Assert.Empty(rig.Wait(1).Sent());
        Assert.Equal([2], rig.Hear(Known.Rest(2)).Accepted());
        Assert.Equal([3], rig.Hear(Known.Rest(3)).Accepted());
        Assert.Equal((2, 2), (rig.State.Counters.BeforeTheirTurn, rig.State.Counters.ResendsAsked));
    }

    [Fact]
    public void The_next_in_order_cancels_the_request()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(2));
        rig.Hear(Known.Rest(3));
        rig.Hear(Known.Rest(1));
        Assert.Empty(rig.Wait(2).Sent());
    }

    [Fact]
    public void A_repetition_is_dropped_and_the_acknowledgement_said_again()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        rig.MakeDurable(1);
        rig.Wait(0.2);
        Assert.Equal([HostLine.Ack(Known.Host, Known.Boot, 1)], rig.Hear(Known.Rest(1)).Sent());
        Assert.Empty(rig.Hear(Known.Rest(1)));
        Assert.Equal((2, 0), (rig.State.Counters.Duplicates, rig.State.Counters.Conflicts));
    }

    [Fact]
    public void Another_content_under_the_same_number_is_a_conflict_told_once()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1, micrometres: 5_000));
        var conflict = Assert.Single(rig.Hear(Known.Rest(1, micrometres: 5_010)).OfType<HostLinkOutput.Conflicting>());
        Assert.Equal((Known.Boot, 1), (conflict.Boot, conflict.Sequence));
        Assert.Empty(rig.Hear(Known.Rest(1, micrometres: 5_010)).OfType<HostLinkOutput.Conflicting>());
        Assert.Single(rig.Hear(Known.Rest(1, micrometres: 5_020)).OfType<HostLinkOutput.Conflicting>());
        Assert.Equal(2, rig.State.Counters.Conflicts);
    }

    [Fact]
    public void The_fingerprints_of_the_journal_tell_repetition_from_conflict_after_a_restart()
    {
        var bytes = Lines.Of(new InstrumentLine(Known.Rest(1)));
        InstrumentLineDecoder.TryDecode(bytes.AsSpan(0, bytes.Length - 1), out var line, out _);
        var rig = HostRig.Connected(durable: 1, prints: Known.NoPrints.Add(1, line.Crc));
        Assert.Empty(rig.Hear(Known.Rest(1)).OfType<HostLinkOutput.Conflicting>());
        Assert.Single(rig.Hear(Known.Rest(1, micrometres: 7)).OfType<HostLinkOutput.Conflicting>());
    }

    [Fact]
    public void A_heartbeat_that_still_keeps_durable_events_shows_a_lost_acknowledgement()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        rig.MakeDurable(1);
        rig.Wait(0.5);
        Assert.Equal([HostLine.Ack(Known.Host, Known.Boot, 1)], rig.HearBeat(1, 1).Sent());
        rig.Wait(0.5);
        Assert.Empty(rig.HearBeat(2, 1).Sent());
    }

    [Fact]
    public void What_was_handed_over_before_an_unplug_is_not_taken_twice()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        rig.Hear(Known.Rest(2));
        rig.Close();
        rig.Open();
        rig.Present();
        rig.Place(0); // The writer has not come to it yet.
        Assert.Empty(rig.Hear(Known.Rest(1)).Accepted());
        Assert.Empty(rig.Hear(Known.Rest(2)).Accepted());
        Assert.Equal([3], rig.Hear(Known.Rest(3)).Accepted());
        Assert.Equal([HostLine.Ack(Known.Host, Known.Boot, 2)], rig.MakeDurable(2).Sent());
    }

    [Fact]
    public void What_could_not_be_written_is_asked_for_again()
    {
        var rig = HostRig.Connected();
        rig.Hear(Known.Rest(1));
        rig.Hear(Known.Rest(2));
        rig.Hear(Known.Rest(3));
        rig.MakeDurable(1);
        var failed = rig.Give(new HostLinkInput.WritingFailed(rig.Now));
        Assert.Equal(new HostLinkOutput.AskPosition(Known.Serial, Known.Boot), Assert.Single(failed));
        rig.Wait(0.2);
        Assert.Contains(HostLine.Resend(Known.Host, Known.Boot, 2), rig.Place(1).Sent());
        Assert.Equal([2], rig.Hear(Known.Rest(2)).Accepted());
    }

    [Fact]
    public void An_event_of_a_kind_that_is_not_known_is_taken_in_order_like_any_other()
    {
        var rig = HostRig.Connected();
        Assert.Equal([1], rig.Hear("EV,8F3A11C02B77D4E9,1,5,BLINK,R,3").Accepted());
        Assert.Equal([2], rig.Hear("EV,8F3A11C02B77D4E9,2,5,MODE,CALIBRATE,-,DIAL").Accepted());
        Assert.Equal(2, rig.State.Counters.UnknownEvents);
        rig.Hear("SPARKLE,1");
        Assert.Equal(1, rig.State.Counters.UnknownTypes);
    }

    [Fact]
    public void Live_positions_are_shown_and_nothing_else()
    {
        var rig = HostRig.Connected();
        Assert.IsType<HostLinkOutput.PositionSeen>(Assert.Single(rig.Hear("POS,L,5000,9")));
    }

    [Fact]
    public void Faults_are_counted_by_what_they_mean()
    {
        var rig = HostRig.Connected();
        foreach (
            var kind in new[]
            {
                LineFaultKind.NoCheck,
                LineFaultKind.BadCheck,
                LineFaultKind.TooLong,
                LineFaultKind.BadField,
                LineFaultKind.ForbiddenByte,
            }
        )
            rig.Give(new HostLinkInput.LineFaulty(new(kind, 0), rig.Now));
        var counted = rig.State.Counters;
        Assert.Equal((2, 1, 2), (counted.BadCheck, counted.TooLong, counted.Unreadable));
    }
}
