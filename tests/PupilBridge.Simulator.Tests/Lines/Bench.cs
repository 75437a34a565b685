using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Simulator.Tests.Lines;

/// <summary>One instrument and one plain host on a line in memory, in virtual time.</summary>
internal sealed class Bench
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(20);

    private byte[] fromHost = [];

    public Bench(InstrumentModel model, FaultSet? faults = null, InstrumentOptions? options = null)
    {
        Instrument = new SimulatedInstrument(model, new SerialNumber("QA-0042"), seed: 1, options);
        Line = new InMemoryInstrument(Instrument, faults);
        Instrument.SwitchOn();
    }

    public SimulatedInstrument Instrument { get; }

    public InMemoryInstrument Line { get; }

    public PlainHost Host { get; } = new();

    public TimeSpan Now { get; private set; }

    public IEnumerable<string> Events => Host.Recorded.Select(r => r.Text);

    public void Run(double seconds)
    {
        for (var end = Now + TimeSpan.FromSeconds(seconds); Now < end; )
        {
            Now += Step;
            Instrument.Advance(Step);
            fromHost = Host.Exchange(Line.Exchange(fromHost, Now), Now);
        }
    }

    public void Turn(InstrumentMode mode, Block block = Block.None) =>
        Instrument.TurnDialTo(Instrument.Model.Stop(mode, block)!.Value);
}
