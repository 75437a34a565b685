using System.Text;
using PupilBridge.Conformance.Lines;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Conformance.Tests.Checks;

/// <summary>A simulated instrument on a line in memory, in a time of its own: whoever waits makes it pass.</summary>
internal sealed class SteppedWire : IWire
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(10);

    private readonly InMemoryInstrument line;
    private readonly Misbehaviour misbehaviour;
    private readonly LineSplitter fromInstrument = new(LineWay.FromInstrument);
    private readonly LineSplitter fromHost = new(LineWay.FromHost);
    private readonly StringBuilder toInstrument = new();

    public SteppedWire(InstrumentModel model, Misbehaviour? misbehaviour = null, InstrumentOptions? options = null)
    {
        this.misbehaviour = misbehaviour ?? new Misbehaviour();
        Instrument = new SimulatedInstrument(model, new SerialNumber("QA-0042"), seed: 7, options);
        line = new InMemoryInstrument(Instrument);
        Instrument.SwitchOn();
    }

    public SimulatedInstrument Instrument { get; }

    public TimeSpan Now { get; private set; }

    public ValueTask<Arrival> ReadAsync(TimeSpan until, CancellationToken cancel)
    {
        while (Now < until)
        {
            Now += Step;
            Instrument.Advance(Step);
            misbehaviour.Act(Instrument, Now);
            var said = line.Exchange(Encoding.Latin1.GetBytes(toInstrument.ToString()), Now);
            toInstrument.Clear();
            var heard = new StringBuilder();
            foreach (var whole in fromInstrument.Take(said, Now))
            {
                heard.Append(string.Concat(misbehaviour.ToHost(whole.Text, Now).Select(text => text + "\n")));
            }

            if (heard.Length > 0)
            {
                return ValueTask.FromResult(new Arrival(Encoding.Latin1.GetBytes(heard.ToString()), Now));
            }
        }

        return ValueTask.FromResult(new Arrival(default, Now));
    }

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes)
    {
        foreach (var whole in fromHost.Take(bytes.Span, Now))
        {
            var end = whole.IsEnded ? "\n" : "";
            toInstrument.Append(string.Concat(misbehaviour.FromHost(whole.Text, Now).Select(text => text + end)));
        }

        return ValueTask.CompletedTask;
    }
}
