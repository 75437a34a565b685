namespace PupilBridge.Ports.Tests;

public sealed class MemoryContractTests : PortContract
{
    private protected override IInstrumentSide MakeInstrument() => new MemoryLine("contract", TimeProvider.System);

    private protected override IPortOpener MakeOpener(IInstrumentSide side) => ((MemoryLine)side).Host;
}
