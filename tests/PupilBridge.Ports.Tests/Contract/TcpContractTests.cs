using System.Net;

namespace PupilBridge.Ports.Tests;

public sealed class TcpContractTests : PortContract
{
    [Fact]
    public void It_listens_on_loopback_unless_told_otherwise()
    {
        Assert.Equal(IPAddress.Loopback.ToString(), Instrument.Address.TcpTarget.Host);
    }

    [Fact]
    public void A_port_number_in_use_is_told()
    {
        var taken = Instrument.Address.TcpTarget.Port;
        var busy = Assert.Throws<PortOpenException>(() => new TcpPortListener(taken));
        Assert.Equal(PortOpenFault.Busy, busy.Fault);
    }

    [Fact]
    public async Task A_computer_that_does_not_exist_is_missing()
    {
        // RFC 6761, section 6.4: names under .invalid never resolve.
        var opener = new PortOpeners(new PortSettings()).For(PortAddress.Parse("tcp:quay.invalid:7001"));
        var fault = await Assert.ThrowsAsync<PortOpenException>(async () => await opener.OpenAsync());
        Assert.Equal(PortOpenFault.Missing, fault.Fault);
        Assert.Contains("quay.invalid", fault.Message, StringComparison.Ordinal);
    }

    private protected override IInstrumentSide MakeInstrument() => new TcpPortListener();

    // TCP has no "busy": the second connection stands for a moment and is then hung up on.
    private protected override async Task AssertTurnedAway()
    {
        await using var second = await Opener.OpenAsync();
        await ReadUntilEnded(second);
    }
}
