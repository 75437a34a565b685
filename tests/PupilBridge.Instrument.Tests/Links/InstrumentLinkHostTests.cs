using PupilBridge.Instrument.Links;

namespace PupilBridge.Instrument.Tests.Links;

public class InstrumentLinkHostTests
{
    [Fact]
    public void A_second_host_is_refused_until_the_first_was_silent_for_ten_seconds()
    {
        var rig = InstrumentRig.Greeted();
        rig.Wait(9.5);
        Assert.Equal(["HELD,00C0FFEE,9"], rig.Hear(HostLine.Who(Known.OtherHost, 1, 1)));
        rig.Wait(0.6);
        Assert.Equal(InstrumentLinkPhase.Alone, rig.State.Phase);
        Assert.StartsWith("ID,", rig.Hear(HostLine.Who(Known.OtherHost, 1, 1))[0], StringComparison.Ordinal);
        Assert.Equal(Known.OtherHost, rig.State.Holder);
    }

    [Fact]
    public void Refusals_are_said_at_most_once_a_second()
    {
        var rig = InstrumentRig.Greeted();
        Assert.Single(rig.Hear(HostLine.Who(Known.OtherHost, 1, 1)));
        Assert.Empty(rig.Hear(HostLine.Who(Known.OtherHost, 1, 1)));
    }

    [Fact]
    public void A_take_over_is_granted_at_once_and_the_displaced_host_is_told()
    {
        var rig = InstrumentRig.Greeted();
        rig.Happen();
        rig.Ack(1);
        var said = rig.Hear(HostLine.Take(Known.OtherHost, 1, 1));
        Assert.Equal("ID,1,QA-0001,Quay-A,1.4.0,MLPO,3,1,00C0FFEE", said[0]);
        rig.Happen();
        Assert.Equal(["HELD,0BADCAFE,0"], rig.Ack(2));
        Assert.Equal(1, rig.State.KeptCount);
    }

    [Fact]
    public void A_holder_that_comes_back_after_a_long_sleep_goes_on_without_greeting()
    {
        var rig = InstrumentRig.Greeted();
        rig.Wait(60);
        Assert.Empty(rig.Happen());
        Assert.Equal(["EV,1,60000,REST,R,5000"], rig.Ack(0));
    }

    [Fact]
    public void Before_any_greeting_of_the_boot_nobody_is_served()
    {
        var rig = new InstrumentRig();
        rig.SwitchOn();
        rig.Happen();
        Assert.Empty(rig.Resend(1));
        Assert.Empty(rig.Ack(1));
        Assert.Equal(1, rig.State.KeptCount);
    }

    [Theory]
    [InlineData(1, 1, 2, 3, "NOVERSION,2,3")]
    [InlineData(4, 9, 2, 3, "NOVERSION,2,3")]
    public void Without_a_common_version_it_says_which_ones_it_has(int low, int high, int from, int to, string said)
    {
        var rig = new InstrumentRig(lowestVersion: from, highestVersion: to);
        rig.SwitchOn();
        Assert.Equal([said], rig.Hear(HostLine.Who(Known.Host, low, high)));
        Assert.False(rig.State.Holder.IsKnown);
    }

    [Fact]
    public void The_highest_common_version_is_used()
    {
        var rig = new InstrumentRig(highestVersion: 3);
        rig.SwitchOn();
        Assert.StartsWith("ID,2,", rig.Hear(HostLine.Who(Known.Host, 1, 2))[0], StringComparison.Ordinal);
    }
}
