using System.Collections.Immutable;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Fuzz.Link;

/// <summary>
/// The instrument's side of a link under whatever hosts may say. An input is a <see cref="Script"/> of hosts' lines: <c>!e</c> so many events
/// happen, <c>!v</c> one of a kind that nobody knows, <c>!m</c> a scale moves, <c>!t</c> time, <c>!x</c> a command is carried out, <c>!o</c> off and on
/// again, <c>!l</c> line lost, <c>!b</c> line back.
/// </summary>
internal sealed class InstrumentLinkTarget : IFuzzTarget
{
    private const int Capacity = 8;
    private static readonly InstrumentLinkSetup Setup = new() { Identity = Identity(), KeptCapacity = Capacity };

    public IReadOnlyList<byte[]> Seeds { get; } =
    [
        HostScripts.Script([
            "!e 3",
            "WHO,00C0FFEE,1,1",
            "ACK,00C0FFEE,0000000000000001,2",
            "!e 1",
            "!t 500",
            "RESEND,00C0FFEE,0000000000000001,2",
            "!t 2500",
            "ACK,00C0FFEE,0000000000000001,4",
        ]),
        HostScripts.Script([
            "WHO,00C0FFEE,1,1",
            "!e 20",
            "!t 100",
            "ACK,00C0FFEE,0000000000000001,5",
            "RESEND,00C0FFEE,0000000000000001,1",
            "WHO,0BADCAFE,1,1",
            "TAKE,0BADCAFE,1,2",
            "!t 10000",
        ]),
        HostScripts.Script([
            "WHO,00C0FFEE,1,1",
            "CMD,00C0FFEE,1,OFF",
            "CMD,00C0FFEE,2,TRAIN,DIRECT,3,1000,3000",
            "!x",
            "CMD,00C0FFEE,1,OFF",
            "CMD,00C0FFEE,3,POLISH",
            "!m 5000",
            "!v",
            "!o",
            "!l",
            "!b",
            "WHO,00C0FFEE,2,9",
        ]),
        .. FailedBefore.Of("instrument-link"),
    ];

    public int MaxBytes => 4096;

    public long Units { get; private set; }

    public int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        var length = StreamMutator.Change(from, other, into, ref dice);
        return dice.OneIn(3) ? ScriptMutator.PutIn(into, length, "eeevmttxolb", ref dice) : length;
    }

    public ulong Run(ReadOnlySpan<byte> input)
    {
        var side = new InstrumentWorld(Setup, Capacity);
        var lines = 0;
        var script = new Script(input);
        while (script.Next())
        {
            switch (script.Act)
            {
                case 'e':
                    side.Happen(Math.Min(script.Number(1), 40));
                    break;
                case 'v':
                    side.Give(new InstrumentLinkInput.HappenedVerbatim("BLINK,R,3", side.At, side.Tick));
                    break;
                case 'm':
                    side.Give(new InstrumentLinkInput.Moved(Eye.Left, new(script.Number(0)), side.At, side.Tick));
                    break;
                case 't':
                    side.Pass(script.Number(100));
                    break;
                case 'x':
                    side.CarryOut();
                    break;
                case 'o':
                    side.Restart();
                    break;
                case 'l':
                    side.Give(new InstrumentLinkInput.LinkLost(side.At, side.Tick));
                    break;
                case 'b':
                    side.Give(new InstrumentLinkInput.LinkBack(side.At, side.Tick));
                    break;
                default:
                    lines++;
                    if (HostLineDecoder.TryDecode(script.Line.TrimEnd((byte)10), out var line, out _))
                        side.Hear(line);
                    break;
            }
        }

        Units += Math.Max(lines, 1);
        return side.Behaviour;
    }

    private static InstrumentIdentity Identity() =>
        new()
        {
            Version = 1,
            Serial = new SerialNumber("QA-0001"),
            Model = "Quay-A",
            Firmware = "1.4.0",
            Boot = default,
            Abilities = InstrumentAbilities.StimulusProfile | InstrumentAbilities.SwitchOff,
            Stops = ImmutableArray.Create(new DialStop(1, InstrumentMode.Idle, Block.None)),
            Scales = new PerEye<ScaleDescription>
            {
                Right = new(new(200), ScaleDirection.Temporal, new(10), new(0), new(12_000)),
                Left = new(new(200), ScaleDirection.Temporal, new(10), new(0), new(12_000)),
            },
        };
}
