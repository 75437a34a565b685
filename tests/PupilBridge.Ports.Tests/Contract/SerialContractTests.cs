using System.Runtime.Versioning;

namespace PupilBridge.Ports.Tests;

[SupportedOSPlatform("linux")]
public sealed class SerialContractTests : PortContract
{
    private protected override IInstrumentSide MakeInstrument() => new PseudoTerminal(TestLinks.Next());

    private protected override IPortOpener MakeOpener(IInstrumentSide side) =>
        new PortOpeners(new PortSettings()).For(PortAddress.Parse("serial:" + side.Address.Target));
}
