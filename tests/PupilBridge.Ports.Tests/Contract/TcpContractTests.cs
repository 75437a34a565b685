namespace PupilBridge.Ports.Tests;

public sealed class TcpContractTests : PortContract
{
    private protected override IInstrumentSide MakeInstrument() => new TcpPortListener();
}
