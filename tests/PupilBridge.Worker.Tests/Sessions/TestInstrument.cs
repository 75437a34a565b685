using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Worker.Tests.Sessions;

/// <summary>An instrument's side of the line: the real link, with a clock of its own, and bytes in and out.</summary>
internal sealed class TestInstrument
{
    private readonly LineBuffer fromHost = new();

    public TestInstrument(
        string serial = "T-100",
        int kept = 512,
        int? bytesPerSecond = null,
        InstrumentAbilities abilities = InstrumentAbilities.MarkKeys | InstrumentAbilities.SwitchOff
    )
    {
        State = InstrumentLinkState.New(
            new InstrumentLinkSetup
            {
                Identity = IdentityOf(serial) with { Abilities = abilities },
                KeptCapacity = kept,
                BytesPerSecond = bytesPerSecond,
            }
        );
    }

    public InstrumentLinkState State { get; private set; }

    public List<byte> ToHost { get; } = [];

    public List<InstrumentLinkOutput.Execute> Commands { get; } = [];

    private TimeSpan On { get; set; }

    public static InstrumentIdentity IdentityOf(string serial) =>
        new()
        {
            Version = 1,
            Serial = new SerialNumber(serial),
            Model = "Quay-A",
            Firmware = "1.0",
            Boot = default,
            Abilities = InstrumentAbilities.MarkKeys | InstrumentAbilities.SwitchOff,
            Stops =
            [
                new DialStop(1, InstrumentMode.Idle, Block.None),
                new DialStop(2, InstrumentMode.Measure, Block.None),
            ],
            Scales = new PerEye<ScaleDescription> { Right = Scale, Left = Scale },
        };

    private static ScaleDescription Scale => new(new(0), ScaleDirection.Temporal, new(10), new(0), new(30_000));

    public Tick TickAt(TimeSpan at) => new((long)(at - On).TotalMilliseconds);

    public void SwitchOn(ulong boot, TimeSpan at)
    {
        On = at;
        Give(new InstrumentLinkInput.SwitchedOn(new BootNumber(boot), at, default));
    }

    public void CutPower(TimeSpan at) => Give(new InstrumentLinkInput.PowerCut(at, TickAt(at)));

    public void Rest(Eye eye, int micrometres, TimeSpan at) =>
        Give(
            new InstrumentLinkInput.Happened(
                InstrumentEvent.ScaleAtRest(TickAt(at), eye, new(micrometres)),
                at,
                TickAt(at)
            )
        );

    public void Say(InstrumentEvent happened, TimeSpan at) =>
        Give(new InstrumentLinkInput.Happened(happened, at, TickAt(at)));

    public void Move(Eye eye, int micrometres, TimeSpan at) =>
        Give(new InstrumentLinkInput.Moved(eye, new(micrometres), at, TickAt(at)));

    public void Answer(InstrumentLinkOutput.Execute command, CommandAnswer answer, TimeSpan at) =>
        Give(new InstrumentLinkInput.CarriedOut(command.Host, command.Number, answer, "", at, TickAt(at)));

    public void Hear(ReadOnlySpan<byte> bytes, TimeSpan at)
    {
        while (!bytes.IsEmpty)
        {
            bytes = bytes[fromHost.Take(bytes)..];
            while (fromHost.TryNext(out var content))
            {
                if (HostLineDecoder.TryDecode(content, out var line, out _))
                    Give(new InstrumentLinkInput.HostLineArrived(line, at, TickAt(at)));
            }
        }
    }

    public void Pass(TimeSpan at) => Give(new InstrumentLinkInput.TimePassed(at, TickAt(at)));

    private void Give(InstrumentLinkInput input)
    {
        var step = InstrumentLink.Step(State, input);
        State = step.State;
        foreach (var output in step.Outputs)
        {
            if (output is InstrumentLinkOutput.Send send)
                ToHost.AddRange(send.Bytes.Span);
            else if (output is InstrumentLinkOutput.Execute execute)
                Commands.Add(execute);
        }
    }
}
