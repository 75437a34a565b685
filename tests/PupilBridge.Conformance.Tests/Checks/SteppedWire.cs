using System.Text;
using PupilBridge.Conformance.Lines;
using PupilBridge.Instrument;
using PupilBridge.Ports;
using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Faults;
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
        : this(model, FaultSet.None, misbehaviour, options) { }

    public SteppedWire(
        InstrumentModel model,
        FaultSet faults,
        Misbehaviour? misbehaviour = null,
        InstrumentOptions? options = null
    )
    {
        this.misbehaviour = misbehaviour ?? new Misbehaviour();
        var spoiled = faults.Spoil(options ?? new InstrumentOptions());
        Instrument = new SimulatedInstrument(model, new SerialNumber("QA-0042"), seed: 7, spoiled);
        line = new InMemoryInstrument(Instrument, faults);
        Instrument.SwitchOn();
    }

    /// <summary>Whether the host's port is lost when the cable comes out, as over USB; on RS-232 the port stays and is silent.</summary>
    public bool IsLostWithCable { get; init; }

    public SimulatedInstrument Instrument { get; }

    /// <summary>The exam that is played at the instrument; null for none.</summary>
    public SimulatedExam? Exam { get; set; }

    /// <summary>What somebody at the instrument does meanwhile; called at each step.</summary>
    public Action? Beside { get; set; }

    public TimeSpan Now { get; private set; }

    public ValueTask<Arrival> ReadAsync(TimeSpan until, CancellationToken cancel)
    {
        while (Now < until)
        {
            Now += Step;
            if (Exam is { } exam)
            {
                exam.Step(Step);
            }
            else
            {
                Instrument.Advance(Step);
            }

            Beside?.Invoke();
            misbehaviour.Act(Instrument, Now);
            if (IsLostWithCable && !line.IsPlugged)
            {
                throw new PortLostException("/dev/ttyACM0", "the cable is out.");
            }

            var said = line.Exchange(Encoding.Latin1.GetBytes(toInstrument.ToString()), Now);
            toInstrument.Clear();
            var heard = new StringBuilder();
            foreach (var whole in fromInstrument.Take(said, Now))
            {
                var end = whole.IsEnded ? "\n" : "";
                heard.Append(string.Concat(misbehaviour.ToHost(whole.Text, Now).Select(text => text + end)));
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
        var isCut = misbehaviour.EndsLinesAtReads && !bytes.Span.EndsWith("\n"u8);
        byte[] read = isCut ? [.. bytes.Span, (byte)'\n'] : bytes.ToArray();
        foreach (var whole in fromHost.Take(read, Now))
        {
            var end = whole.IsEnded ? "\n" : "";
            toInstrument.Append(string.Concat(misbehaviour.FromHost(whole.Text, Now).Select(text => text + end)));
        }

        return ValueTask.CompletedTask;
    }
}
