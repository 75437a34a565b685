using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Fuzz.Codec;

/// <summary>
/// One line a time through both decoders of the product and through the reference: the same lines taken and refused, for the same
/// reason, and the same content, which is compared by what the product's encoder makes of it. An input is a line without its LF.
/// </summary>
/// <param name="codec">The codec that is tried; a test puts a spoilt one here.</param>
internal sealed class CodecTarget(ILineCodec? codec = null) : IFuzzTarget
{
    private readonly ILineCodec codec = codec ?? new ProductCodec();
    private readonly byte[] expected = new byte[160];
    private readonly byte[] written = new byte[WireLimits.MaxLineBytes];

    public IReadOnlyList<byte[]> Seeds { get; } = [.. ProtocolPage.Lines, .. FailedBefore.Of("codec")];

    public int MaxBytes => 160;

    public long Units { get; private set; }

    public int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice) =>
        LineMutator.Change(from, other, into, ref dice);

    public ulong Run(ReadOnlySpan<byte> input)
    {
        Units++;
        var signature = new Signature();
        var envelope = ReferenceDecoder.Open(input, out var body);
        if (envelope != ReferenceKind.Known)
        {
            Refused(input, envelope, isInstrument: true);
            Refused(input, envelope, isInstrument: false);
            signature.Add((int)envelope);
            signature.Bucket(input.Length);
            return signature.Bits;
        }

        Span<short> ends = stackalloc short[128];
        var fields = new ReferenceFields(body, ends);
        signature.Add(Instrument(input, fields));
        signature.Add(Host(input, fields));
        signature.Bucket(fields.Count);
        return signature.Bits;
    }

    private int Instrument(ReadOnlySpan<byte> input, scoped in ReferenceFields fields)
    {
        var verdict = ReferenceDecoder.OfInstrument(fields);
        var taken = codec.Instrument(input, out var line, out var fault);
        if (taken != verdict.IsTaken)
            throw Differs(input, verdict.Kind, fault, "instrument");
        if (!taken)
            return Refused(verdict.Kind, fault, input) * 64 + fault.Field;
        var kind = line.Kind == InstrumentLineKind.Event ? 16 + (int)line.Event.Kind : (int)line.Kind;
        switch (verdict.Kind)
        {
            case ReferenceKind.UnknownType when line.Kind != InstrumentLineKind.Unknown:
            case ReferenceKind.UnknownEvent when line.Event.Kind != InstrumentEventKind.Unknown:
            case ReferenceKind.UnreadableEvent when line.Event.Kind != InstrumentEventKind.Unreadable:
                throw Differs(input, verdict.Kind, fault, $"instrument, kind {kind}");
            case ReferenceKind.UnknownEvent or ReferenceKind.UnreadableEvent:
                SameHead(input, fields, line.Event);
                break;
            case ReferenceKind.Known:
                Same(
                    input,
                    fields.Through(verdict.Fields),
                    codec.Write(line, written),
                    line.Kind == InstrumentLineKind.Identity
                );
                break;
        }

        return kind * 64;
    }

    private int Host(ReadOnlySpan<byte> input, scoped in ReferenceFields fields)
    {
        var verdict = ReferenceDecoder.OfHost(fields);
        var taken = codec.Host(input, out var line, out var fault);
        if (taken != verdict.IsTaken)
            throw Differs(input, verdict.Kind, fault, "host");
        if (!taken)
            return Refused(verdict.Kind, fault, input) * 64 + fault.Field;
        var known = line.Command.Kind is InstrumentCommandKind.Off or InstrumentCommandKind.Train;
        if (verdict.Kind == ReferenceKind.UnknownType != (line.Kind == HostLineKind.Unknown))
            throw Differs(input, verdict.Kind, fault, $"host, {line.Kind}");
        if (verdict.Kind == ReferenceKind.UnknownCommand)
        {
            if (known || line.Kind != HostLineKind.Command || line.CommandNumber != fields.Number(2))
                throw Differs(input, verdict.Kind, fault, $"host, {line.Command.Kind}");
        }
        else if (verdict.Kind == ReferenceKind.Known)
        {
            Same(input, fields.Through(verdict.Fields), codec.Write(line, written), isIdentity: false);
        }

        return 4096 + ((int)line.Kind * 64) + (int)line.Command.Kind;
    }

    /// <summary>The encoder writes what was read as the line itself has it, up to the fields that are known.</summary>
    private void Same(ReadOnlySpan<byte> input, ReadOnlySpan<byte> canonical, int length, bool isIdentity)
    {
        canonical.CopyTo(expected);
        var count = isIdentity ? AbilitiesInOrder(canonical) : canonical.Length;
        var crc = ReferenceCrc.Of(expected.AsSpan(0, count));
        expected[count] = (byte)'*';
        ReferenceCrc.Write(crc, expected.AsSpan(count + 1));
        expected[count + 9] = (byte)'\n';
        if (!written.AsSpan(0, length).SequenceEqual(expected.AsSpan(0, count + 10)))
            throw new Finding(
                "The decoder read something else than stands in the line",
                $"{Readable.Of(input)} was read as {Readable.Of(written.AsSpan(0, length))}"
            );
    }

    /// <summary>Abilities are written in one order and without those that are not known.</summary>
    private int AbilitiesInOrder(ReadOnlySpan<byte> canonical)
    {
        Span<short> ends = stackalloc short[128];
        var fields = new ReferenceFields(canonical, ends);
        var start = fields.Through(5).Length + 1;
        var at = start;
        foreach (var letter in "MLSPOFVBG"u8)
        {
            if (fields[6].Contains(letter))
                expected[at++] = letter;
        }

        if (at == start)
            expected[at++] = (byte)'-';
        var rest = canonical[fields.Through(6).Length..];
        rest.CopyTo(expected.AsSpan(at));
        return at + rest.Length;
    }

    private static void SameHead(ReadOnlySpan<byte> input, scoped in ReferenceFields fields, in InstrumentEvent read)
    {
        Span<byte> boot = stackalloc byte[16];
        ReferenceCrc.Write((uint)(read.Boot.Value >> 32), boot);
        ReferenceCrc.Write((uint)read.Boot.Value, boot[8..]);
        var same = boot.SequenceEqual(fields[1]) && (ulong)read.Sequence == fields.Number(2);
        if (!same || (ulong)read.Tick.Milliseconds != fields.Number(3))
            throw new Finding(
                "The decoder read another boot, sequence or tick",
                $"{Readable.Of(input)} as {read.Boot} {read.Sequence} {read.Tick.Milliseconds}"
            );
    }

    private void Refused(ReadOnlySpan<byte> input, ReferenceKind why, bool isInstrument)
    {
        LineFault fault;
        var taken = isInstrument ? codec.Instrument(input, out _, out fault) : codec.Host(input, out _, out fault);
        if (taken)
            throw Differs(input, why, fault, isInstrument ? "instrument" : "host");
        Refused(why, fault, input);
    }

    private static int Refused(ReferenceKind why, LineFault fault, ReadOnlySpan<byte> input)
    {
        var expected = why switch
        {
            ReferenceKind.TooLong => LineFaultKind.TooLong,
            ReferenceKind.NoCheck => LineFaultKind.NoCheck,
            ReferenceKind.BadCheck => LineFaultKind.BadCheck,
            ReferenceKind.ForbiddenByte => LineFaultKind.ForbiddenByte,
            _ => LineFaultKind.BadField,
        };
        if (fault.Kind != expected || (expected == LineFaultKind.BadField && fault.Field < 1))
            throw Differs(input, why, fault, "reason");
        return (int)expected;
    }

    private static Finding Differs(ReadOnlySpan<byte> input, ReferenceKind reference, LineFault fault, string side) =>
        new(
            "The decoder and the reference judge a line differently",
            $"{Readable.Of(input)}: the reference says {reference}, the decoder {fault.Kind} {fault.Field} ({side})"
        );
}
