using System.Runtime.Versioning;

namespace PupilBridge.Ports.Tests;

[SupportedOSPlatform("linux")]
public sealed class TerminalContractTests : PortContract
{
    private protected override IInstrumentSide MakeInstrument() => new PseudoTerminal(TestLinks.Next());
}
