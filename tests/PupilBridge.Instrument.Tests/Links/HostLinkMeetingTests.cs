using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links;

public class HostLinkMeetingTests
{
    [Fact]
    public void It_greets_meets_asks_the_journal_and_only_then_is_connected()
    {
        var rig = new HostRig();
        Assert.Equal([HostLine.Who(Known.Host, 1, 1)], rig.Open().Sent());
        var met = rig.Present();
        Assert.Equal(Known.Serial, Assert.IsType<HostLinkOutput.Met>(met[0]).Identity.Serial);
        Assert.Equal(6, ((HostLinkOutput.Met)met[0]).RawLines.Length);
        Assert.Equal(new HostLinkOutput.AskPosition(Known.Serial, Known.Boot), met[1]);
        Assert.Equal(HostLinkPhase.Placing, rig.State.Phase);
        var placed = rig.Place(4);
        Assert.Equal([HostLine.Ack(Known.Host, Known.Boot, 4)], placed.Sent());
        Assert.Single(placed.OfType<HostLinkOutput.Connected>());
    }

    [Fact]
    public void It_greets_again_each_second_until_the_identity_is_whole()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Hear("STOP,1,IDLE,-");
        Assert.Single(rig.Wait(1.5).Sent());
        rig.Hear("ID,1,QA-0001,Quay-A,1.4.0,8F3A11C02B77D4E9,M,2,0,-");
        rig.Hear("STOP,2,MEASURE,-");
        rig.Hear("SCALE,R,200,OUT,10,0,12000");
        rig.Hear("SCALE,L,200,OUT,10,0,12000");
        Assert.Equal(HostLinkPhase.Greeting, rig.State.Phase);
        Assert.Single(rig.Wait(1).Sent());
    }

    [Fact]
    public void A_new_identity_line_starts_over()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Hear("ID,1,QA-0001,Quay-A,1.4.0,8F3A11C02B77D4E9,M,3,0,-");
        rig.Hear("STOP,1,IDLE,-");
        Assert.Single(rig.Present().OfType<HostLinkOutput.Met>());
    }

    [Fact]
    public void It_tells_who_was_met_once_per_opening_and_again_after_a_change()
    {
        var rig = HostRig.Connected();
        Assert.Empty(rig.Present(acknowledged: 5, by: Known.Host).OfType<HostLinkOutput.Met>());
        rig.Place(5);
        Assert.Single(rig.Present(boot: Known.NextBoot).OfType<HostLinkOutput.Met>());
        rig.Close();
        rig.Open();
        Assert.Single(rig.Present(boot: Known.NextBoot).OfType<HostLinkOutput.Met>());
    }

    [Fact]
    public void Events_that_come_before_the_journal_answers_are_asked_for_again()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Present();
        Assert.Empty(rig.Hear(Known.Rest(1)).Accepted());
        Assert.Contains(HostLine.Resend(Known.Host, Known.Boot, 1), rig.Place(0).Sent());
    }

    [Fact]
    public void A_host_that_is_refused_greets_again_and_gets_the_instrument_when_it_is_free()
    {
        var rig = new HostRig();
        rig.Open();
        var refused = rig.Hear("HELD,0BADCAFE,2");
        Assert.Contains(new HostLinkOutput.RefusedHeld(Known.OtherHost, 2), refused);
        Assert.Equal(HostLinkPhase.Held, rig.State.Phase);
        rig.Wait(2.9);
        rig.HearBeat(1, 0);
        Assert.Equal(HostLineKind.Who, Assert.Single(rig.Wait(0.2).Sent()).Kind);
        rig.Present();
        rig.Place(0);
        Assert.Equal(HostLinkPhase.Connected, rig.State.Phase);
    }

    [Fact]
    public void A_take_over_is_repeated_until_an_identity_comes()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Hear("HELD,0BADCAFE,2");
        var wished = rig.Give(new HostLinkInput.TakeOverWished(rig.Now));
        Assert.Equal([HostLine.Take(Known.Host, 1, 1)], wished.Sent());
        Assert.Equal([HostLine.Take(Known.Host, 1, 1)], rig.Wait(1.2).Sent());
        rig.Present();
        rig.Close();
        Assert.Equal(HostLineKind.Who, Assert.Single(rig.Open().Sent()).Kind);
    }

    [Fact]
    public void A_host_that_was_displaced_learns_it_and_its_command_ends()
    {
        var rig = HostRig.Connected();
        rig.Give(new HostLinkInput.Wish(7, InstrumentCommand.Off, rig.Now));
        var displaced = rig.Hear("HELD,0BADCAFE,0");
        Assert.Equal(CommandOutcome.NoAnswer, Assert.Single(displaced.OfType<HostLinkOutput.CommandEnded>()).Outcome);
        Assert.Empty(rig.Hear(Known.Rest(1)).Accepted());
    }

    [Fact]
    public void Without_a_common_version_it_says_which_ones_the_instrument_has()
    {
        var rig = new HostRig();
        rig.Open();
        Assert.Contains(new HostLinkOutput.RefusedVersion(2, 3), rig.Hear("NOVERSION,2,3"));
        for (var second = 0; second < 9; second++)
        {
            Assert.Empty(rig.Wait(1).Sent());
            rig.HearBeat(1, 0);
        }

        Assert.Single(rig.Wait(1.5).Sent());
    }

    [Fact]
    public void An_instrument_that_answers_in_an_unknown_version_is_refused()
    {
        var rig = new HostRig();
        rig.Open();
        rig.Hear("ID,2,QA-0001,Quay-A,1.4.0,8F3A11C02B77D4E9,M,1,0,-");
        rig.Hear("STOP,1,IDLE,-");
        rig.Hear("SCALE,R,200,OUT,10,0,12000");
        var outputs = rig.Hear("SCALE,L,200,OUT,10,0,12000");
        Assert.Contains(new HostLinkOutput.RefusedVersion(2, 2), outputs);
    }

    [Fact]
    public void Another_serial_number_on_the_same_open_port_ends_the_link()
    {
        var rig = HostRig.Connected();
        var outputs = rig.Present(serial: "QA-0002");
        Assert.Contains(new HostLinkOutput.RefusedSerialChanged(Known.Serial, new("QA-0002")), outputs);
        Assert.Equal(HostLinkPhase.Ended, rig.State.Phase);
        Assert.Empty(rig.Hear(Known.Rest(1)));
        rig.Close();
        rig.Open();
        Assert.Single(rig.Present(serial: "QA-0002").OfType<HostLinkOutput.Met>());
    }

    [Fact]
    public void Three_seconds_without_a_good_line_are_a_stall()
    {
        var rig = HostRig.Connected();
        Assert.Empty(rig.Wait(2.9).OfType<HostLinkOutput.Stalled>());
        Assert.Equal(
            new HostLinkOutput.Stalled(0, true),
            Assert.Single(rig.Wait(0.1).OfType<HostLinkOutput.Stalled>())
        );
        Assert.Null(rig.State.NextDue);
        Assert.Empty(rig.Wait(60));
    }

    [Fact]
    public void Garbage_alone_is_a_stall_that_says_so()
    {
        var rig = new HostRig();
        rig.Open();
        for (var line = 0; line < 6; line++)
        {
            rig.Wait(0.5);
            rig.Give(new HostLinkInput.LineFaulty(new(Instrument.Wire.LineFaultKind.BadCheck, 0), rig.Now));
        }

        Assert.Contains(new HostLinkOutput.Stalled(5, false), rig.All);
        // The first one may be half a line that the opening cut.
        Assert.Equal(5, rig.State.Counters.BadCheck);
    }

    [Fact]
    public void Heartbeats_keep_it_alive_and_it_keeps_the_instrument()
    {
        var rig = HostRig.Connected();
        for (var second = 0; second < 12; second++)
        {
            rig.Wait(1);
            Assert.Contains(rig.HearBeat(1, 0), o => o is HostLinkOutput.BeatSeen);
        }

        Assert.InRange(rig.All.Sent().Count(l => l.Kind == HostLineKind.Ack), 3, 5);
        Assert.All(rig.All.Sent(), l => Assert.Equal(0, l.Sequence));
    }
}
