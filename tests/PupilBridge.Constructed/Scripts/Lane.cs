using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Constructed.Scripts;

/// <summary>An instrument of a script: it numbers its events and writes them as lines of the protocol.</summary>
public sealed class Lane(string serial)
{
    private readonly List<InstrumentReported> held = [];

    public SerialNumber Serial { get; } = new(serial);

    public BootNumber Boot { get; private set; } = new(1);

    public long LastEvent { get; private set; }

    /// <summary>The instrument's tick less the script's clock, in ms.</summary>
    public long TickOffset { get; set; } = 5_000;

    public long Uncertainty { get; set; }

    public bool IsHeld { get; set; }

    public void Restart(ulong? boot = null)
    {
        Boot = new(boot ?? (Boot.Value + 1));
        LastEvent = 0;
    }

    public void Skip(long events) => LastEvent += events;

    public InstrumentReported Say(InstrumentEvent happened, long clock) =>
        Raw(Line(happened with { Boot = Boot, Sequence = LastEvent + 1, Tick = new(clock + TickOffset) }), clock);

    public InstrumentReported Raw(string line, long clock)
    {
        LastEvent++;
        return new()
        {
            Serial = Serial,
            Boot = Boot,
            Sequence = LastEvent,
            RawLine = line,
            HappenedAt = new(clock),
            UncertaintyMilliseconds = Uncertainty,
            ArrivedAt = new(clock),
        };
    }

    public void Hold(InstrumentReported reported) => held.Add(reported);

    public IReadOnlyList<InstrumentReported> Release()
    {
        InstrumentReported[] released = [.. held];
        held.Clear();
        IsHeld = false;
        return released;
    }

    /// <summary>
    /// The identity of one of two models: <c>A</c> has mark keys and scales that grow away from the nose, home 2 mm, step
    /// 10 µm; <c>B</c> has neither mark keys nor, on its scales, the same direction: they grow towards the nose, home 16 mm,
    /// step 50 µm.
    /// </summary>
    public InstrumentMet Identify(string model, long clock)
    {
        string[] bodies =
            model == "A"
                ?
                [
                    $"ID,1,{Serial},Quay-A,1.0,{Boot},ML,1,0,-",
                    "STOP,1,IDLE,-",
                    "SCALE,R,2000,OUT,10,0,30000",
                    "SCALE,L,2000,OUT,10,0,30000",
                ]
                :
                [
                    $"ID,1,{Serial},Quay-B,2.0,{Boot},S,1,0,-",
                    "STOP,1,IDLE,-",
                    "SCALE,R,16000,IN,50,500,18000",
                    "SCALE,L,16000,IN,50,500,18000",
                ];
        return new()
        {
            At = new(clock),
            Serial = Serial,
            Boot = Boot,
            PortName = "memory",
            RawLines = [.. bodies.Select(WithCrc)],
        };
    }

    public static string WithCrc(string body) => $"{body}*{LineCrc.Of(Encoding.ASCII.GetBytes(body)):X8}";

    private static string Line(InstrumentEvent happened)
    {
        Span<byte> bytes = stackalloc byte[WireLimits.MaxLineBytes];
        var length = InstrumentLineEncoder.Encode(new InstrumentLine(happened), bytes);
        return Encoding.ASCII.GetString(bytes[..length]).TrimEnd('\n');
    }
}
