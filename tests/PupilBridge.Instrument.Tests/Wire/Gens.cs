using CsCheck;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Wire;

/// <summary>Random values of everything that a line can say.</summary>
internal static class Gens
{
    internal static readonly Gen<BootNumber> Boot = Gen.ULong.Select(v => new BootNumber(v));
    internal static readonly Gen<HostId> Host = Gen.UInt[1, uint.MaxValue].Select(v => new HostId(v));
    internal static readonly Gen<Tick> Tick = Gen.Frequency(
            (5, Gen.Long[0, 10_000_000]),
            (1, Gen.Long[0, long.MaxValue])
        )
        .Select(v => new Tick(v));
    internal static readonly Gen<long> Sequence = Gen.Frequency(
        (5, Gen.Long[1, 100_000]),
        (1, Gen.Long[1, WireLimits.MaxSequence])
    );
    internal static readonly Gen<Eye> Eye = Gens.Any(Instrument.Eye.Right, Instrument.Eye.Left);
    internal static readonly Gen<Micrometres> Position = Gen.Int[0, WireLimits.MaxPositionMicrometres]
        .Select(v => new Micrometres(v));
    internal static readonly Gen<InstrumentMode> Mode = Gens.Any(Enum.GetValues<InstrumentMode>());
    internal static readonly Gen<Block> Block = Gens.Any(Enum.GetValues<Block>());

    internal static Gen<T> Any<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    internal static Gen<string> Text(int shortest, int longest) =>
        Gen.Char[' ', '~'].Where(c => c is not (',' or '*')).Array[shortest, longest].Select(c => new string(c));

    private static readonly Gen<InstrumentEvent> Bare = Gen.OneOf(
        Gen.Select(Tick, Mode, Block, Gens.Any(ModeCause.Dial, ModeCause.Self), InstrumentEvent.ModeChanged),
        Gen.Select(Tick, Eye, Gens.Any(PupilEdge.Nasal, PupilEdge.Temporal), Position, InstrumentEvent.EdgeMarked),
        Gen.Select(Tick, Eye, Position, InstrumentEvent.ScaleAtRest),
        Gen.Select(Tick, Eye, Gen.Bool, Gen.Int[0, 100], InstrumentEvent.LampSwitched),
        Gen.Select(Tick, Eye, Gen.Int[0, WireLimits.MaxMillilux], InstrumentEvent.LampOutput),
        Gen.Select(Tick, Gen.Int[0, WireLimits.MaxMillilux], InstrumentEvent.RoomMeasured),
        Gen.Select(Tick, Gens.Any(RoomLightLevel.Bright, RoomLightLevel.Dim), InstrumentEvent.RoomSwitched),
        Gen.Select(Tick, Gens.Any(FixationDistance.Far, FixationDistance.Near), InstrumentEvent.FixationChanged),
        Gen.Select(Tick, Gen.Bool, InstrumentEvent.LensMoved),
        Tick.Select(InstrumentEvent.SwitchedOff),
        Gen.Select(Tick, Gen.Int[1, WireLimits.MaxFaultCode], Text(0, 40), InstrumentEvent.FaultReported),
        Tick.Select(t => InstrumentEvent.EventsLost(t, 1))
    );

    internal static readonly Gen<InstrumentEvent> Event = Gen.Select(
        Bare,
        Boot,
        Sequence,
        (e, boot, sequence) => e with { Boot = boot, Sequence = sequence }
    );

    private static readonly Gen<IdentityHead> Identity = Gen.Select(
        Gen.Select(Gen.Byte[1, 99], Gen.UShort[0, 511], Gen.Byte[1, 32]),
        Gen.OneOf(Gen.Char['A', 'Z'], Gen.Char['a', 'z'], Gen.Char['0', '9'], Gens.Any('-', '.', '_')).Array[1, 16],
        Gen.Select(Text(1, 16), Text(1, 10)),
        Boot,
        Gen.OneOf(Gen.Const((0L, default(HostId))), Gen.Select(Sequence, Host)),
        (numbers, serial, texts, boot, acked) =>
            new IdentityHead(
                numbers.Item1,
                AsciiText.From(new string(serial)),
                AsciiText.From(texts.Item1),
                AsciiText.From(texts.Item2),
                boot,
                (InstrumentAbilities)numbers.Item2,
                numbers.Item3,
                acked.Item1,
                acked.Item2
            )
    );

    private static readonly Gen<EyeScale> Scale = Gen.Select(
        Eye,
        Gens.Any(ScaleDirection.Nasal, ScaleDirection.Temporal),
        Gen.Int[1, 1000],
        Gen.Int[0, 99_999].Array[3].Where(v => v.Distinct().Count() == 3),
        (eye, direction, resolution, three) =>
        {
            var sorted = three.Order().Select(v => new Micrometres(v)).ToArray();
            return new EyeScale(eye, new(sorted[1], direction, new(resolution), sorted[0], sorted[2]));
        }
    );

    private static readonly Gen<Heartbeat> Beat = Gen.Select(
        Boot,
        Tick,
        Gen.Select(Sequence, Gen.Long[0, 600], (last, kept) => (Math.Max(1, last - kept + 1), last)),
        Gen.OneOf(Gen.Const((byte?)null), Gen.Byte[0, 100].Select(b => (byte?)b)),
        (boot, tick, range, battery) => new Heartbeat(boot, tick, range.Item1, range.last, battery)
    );

    private static readonly Gen<CommandReply> Reply = Gen.Select(
        Host,
        Gen.UInt[1, uint.MaxValue],
        Gens.Any(CommandAnswer.Ok, CommandAnswer.Refused, CommandAnswer.Unknown, CommandAnswer.Busy),
        Text(0, 40),
        (host, number, answer, reason) => new CommandReply(host, number, answer, AsciiText.From(reason))
    );

    internal static readonly Gen<InstrumentLine> InstrumentLine = Gen.OneOf(
        Event.Select(e => new InstrumentLine(e)),
        Identity.Select(i => new InstrumentLine(i)),
        Gen.Select(Gen.Int[1, 32], Mode, Block, (i, m, b) => new InstrumentLine(new DialStop(i, m, b))),
        Scale.Select(s => new InstrumentLine(s)),
        Gen.Select(Eye, Position, Tick, (e, p, t) => new InstrumentLine(new LivePosition(e, p, t))),
        Beat.Select(b => new InstrumentLine(b)),
        Reply.Select(r => new InstrumentLine(r)),
        Gen.Select(Host, Gen.Int[0, 999_999], (h, s) => new InstrumentLine(new HeldByOther(h, s))),
        Gen.Select(Gen.Byte[1, 50], Gen.Byte[50, 99], (low, high) => new InstrumentLine(new VersionRange(low, high)))
    );

    internal static readonly Gen<InstrumentCommand> Command = Gen.OneOf(
        Gen.Const(InstrumentCommand.Off),
        Gen.Select(
            Block.Where(b => b != Instrument.Block.None),
            Gen.Int[1, 99],
            Gen.Int[1, 60_000],
            Gen.Int[0, 60_000],
            InstrumentCommand.Train
        )
    );

    internal static readonly Gen<HostLine> HostLine = Gen.OneOf(
        Gen.Select(Host, Gen.Int[1, 50], Gen.Int[50, 99], Instrument.HostLine.Who),
        Gen.Select(Host, Gen.Int[1, 50], Gen.Int[50, 99], Instrument.HostLine.Take),
        Gen.Select(Host, Boot, Gen.OneOf(Gen.Const(0L), Sequence), Instrument.HostLine.Ack),
        Gen.Select(Host, Boot, Sequence, Instrument.HostLine.Resend),
        Gen.Select(Host, Gen.UInt[1, uint.MaxValue], Command, Instrument.HostLine.Ask)
    );
}
