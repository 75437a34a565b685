using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;
using PupilBridge.Worker.Live;

namespace PupilBridge.Clinic.Tests.Support;

/// <summary>Writes journal entries as an instrument, with mark keys if nothing else is said, would cause them, with a clock of its own.</summary>
internal sealed class ScriptedInstrument(
    string serial,
    DateTimeOffset start,
    InstrumentAbilities abilities = InstrumentAbilities.MarkKeys
)
{
    private static readonly ScaleDescription Scale = new(new(0), ScaleDirection.Temporal, new(10), new(0), new(30_000));
    private readonly BootNumber boot = new(0xB007);
    private long sequence;
    private long tick;

    public SerialNumber Serial { get; } = new(serial);

    public DateTimeOffset Now => start.AddMilliseconds(tick);

    public InstrumentMet Met(int highest = 30_000) =>
        new()
        {
            At = UtcTime.From(Now),
            Serial = Serial,
            Boot = boot,
            PortName = "memory:1",
            RawLines =
            [
                Text(
                    new InstrumentLine(
                        new IdentityHead(
                            1,
                            AsciiText.From(serial),
                            AsciiText.From("Quay-A"),
                            AsciiText.From("1.0"),
                            boot,
                            abilities,
                            1,
                            0,
                            default
                        )
                    )
                ),
                Text(new InstrumentLine(new DialStop(1, InstrumentMode.Idle, Block.None))),
                Text(new InstrumentLine(new EyeScale(Eye.Right, Scale with { Highest = new(highest) }))),
                Text(new InstrumentLine(new EyeScale(Eye.Left, Scale with { Highest = new(highest) }))),
            ],
        };

    /// <summary>Nothing happens for a while.</summary>
    public void Wait(TimeSpan time) => tick += (long)time.TotalMilliseconds;

    public JournalEntry Dial(InstrumentMode mode, Block block = Block.None) =>
        Say(500, at => InstrumentEvent.ModeChanged(at, mode, block, ModeCause.Dial));

    /// <summary>Both edges of one pupil, 2 s apart.</summary>
    public IEnumerable<JournalEntry> Mark(Eye eye, int diameterMicrometres)
    {
        yield return Say(2000, at => InstrumentEvent.EdgeMarked(at, eye, PupilEdge.Nasal, new(5_000)));
        yield return Say(
            2000,
            at => InstrumentEvent.EdgeMarked(at, eye, PupilEdge.Temporal, new(5_000 + diameterMicrometres))
        );
    }

    /// <summary>One edge of one pupil.</summary>
    public JournalEntry Edge(Eye eye, PupilEdge edge, int position) =>
        Say(2000, at => InstrumentEvent.EdgeMarked(at, eye, edge, new(position)));

    /// <summary>A scale comes to rest.</summary>
    public JournalEntry Rest(Eye eye, int position) =>
        Say(2000, at => InstrumentEvent.ScaleAtRest(at, eye, new(position)));

    /// <summary>The sensor's reading.</summary>
    public JournalEntry Lux(int lux) => Say(500, at => InstrumentEvent.RoomMeasured(at, lux * 1000));

    /// <summary>A lamp goes on or off.</summary>
    public JournalEntry Lamp(Eye eye, bool on) =>
        Say(500, at => InstrumentEvent.LampSwitched(at, eye, on, on ? 80 : 0));

    /// <summary>The meter at a burning lamp.</summary>
    public JournalEntry LampOutput(Eye eye, int millilux) =>
        Say(500, at => InstrumentEvent.LampOutput(at, eye, millilux));

    /// <summary>One stimulus.</summary>
    public IEnumerable<JournalEntry> Light(Eye eye, int dwellMilliseconds, int gapMilliseconds)
    {
        yield return Say(gapMilliseconds, at => InstrumentEvent.LampSwitched(at, eye, true, 80));
        yield return Say(dwellMilliseconds, at => InstrumentEvent.LampSwitched(at, eye, false, 0));
    }

    /// <summary>A whole direct block: three stimuli of 1 s into each eye.</summary>
    public IEnumerable<JournalEntry> DirectBlock() =>
        EyeFacts
            .Both.ToArray()
            .SelectMany(eye => Enumerable.Repeat(eye, 3))
            .SelectMany(eye => Light(eye, 1000, 3000))
            .Prepend(Dial(InstrumentMode.Sequence, Block.Direct));

    public IEnumerable<JournalEntry> SwingBlock(Block block, int dwellMilliseconds) =>
        Enumerable
            .Range(0, 8)
            .SelectMany(n => Light(n % 2 == 0 ? Eye.Right : Eye.Left, dwellMilliseconds, 200))
            .Prepend(Dial(InstrumentMode.Sequence, block));

    /// <summary>What the instrument tells of itself, live, as far as nothing has happened yet.</summary>
    public LiveInstrument Live() =>
        new()
        {
            Serial = Serial,
            Model = "Quay-A",
            Firmware = "1.0",
            Abilities = abilities,
            Boot = boot,
            Port = "memory:1",
            IsConnected = true,
            HeardAt = Now,
        };

    public JournalEntry Line(LineState state) =>
        new LineChanged
        {
            At = UtcTime.From(Now),
            Serial = Serial,
            PortName = "memory:1",
            State = state,
            Reason = "",
        };

    public JournalEntry SwitchOff() => Say(500, InstrumentEvent.SwitchedOff);

    private InstrumentReported Say(int afterMilliseconds, Func<Tick, InstrumentEvent> make)
    {
        tick += afterMilliseconds;
        var happened = make(new Tick(tick)) with { Boot = boot, Sequence = ++sequence };
        return new InstrumentReported
        {
            Serial = Serial,
            Boot = boot,
            Sequence = sequence,
            RawLine = Text(new InstrumentLine(happened)),
            HappenedAt = UtcTime.From(Now),
            UncertaintyMilliseconds = 2,
            ArrivedAt = UtcTime.From(Now),
        };
    }

    private static string Text(InstrumentLine line)
    {
        Span<byte> bytes = stackalloc byte[WireLimits.MaxLineBytes];
        var length = InstrumentLineEncoder.Encode(line, bytes);
        return Encoding.ASCII.GetString(bytes[..length]).TrimEnd('\n');
    }
}
