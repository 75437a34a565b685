using PupilBridge.Fuzz.Codec;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;

namespace PupilBridge.Fuzz.Link;

/// <summary>
/// The world around an instrument's side of a link, with its oracles: what it says can be read; an event's line never changes; nothing is
/// forgotten that no host acknowledged, nor kept beyond the memory; and few lines for each that comes.
/// </summary>
internal sealed class InstrumentWorld
{
    private readonly int capacity;
    private readonly Dictionary<ulong, uint> told = [];
    private readonly Queue<InstrumentLinkOutput.Execute> commands = [];
    private InstrumentLinkState state;
    private ulong seen;
    private ulong boot = 1;
    private long acknowledged;

    public InstrumentWorld(InstrumentLinkSetup setup, int capacity)
    {
        this.capacity = capacity;
        state = InstrumentLinkState.New(setup);
        Give(new InstrumentLinkInput.SwitchedOn(new BootNumber(boot), At, Tick));
    }

    public TimeSpan At { get; private set; } = TimeSpan.FromSeconds(1);

    public Tick Tick => new((long)At.TotalMilliseconds);

    public ulong Behaviour
    {
        get
        {
            var signature = new Signature();
            signature.Add((int)seen);
            signature.Add((int)(seen >> 32));
            signature.Add((int)state.Phase);
            signature.Bucket(state.Last);
            signature.Bucket(state.KeptCount);
            signature.Bucket(state.Acknowledged);
            return signature.Bits;
        }
    }

    public void Give(InstrumentLinkInput input)
    {
        var kept = state.KeptCount;
        var step = InstrumentLink.Step(state, input);
        state = step.State;
        var sent = 0;
        foreach (var output in step.Outputs)
        {
            if (output is InstrumentLinkOutput.Send send)
            {
                sent++;
                Check(send.Bytes.Span);
            }
            else if (output is InstrumentLinkOutput.Execute execute)
            {
                commands.Enqueue(execute);
            }
        }

        if (sent > kept + 12)
            throw new Finding("The instrument says too much at once", $"{sent} lines to {input}");
        if (state.KeptCount > capacity)
            throw new Finding("The instrument keeps more than its memory holds", $"{state.KeptCount} of {capacity}");
        if (state.OldestKept > acknowledged + 1)
            throw new Finding(
                "The instrument forgot what nobody acknowledged",
                $"{state.OldestKept} after {acknowledged}"
            );
    }

    public void Hear(HostLine line)
    {
        // Section 9: of the present boot, from the host that holds it, and not above what there is.
        var counts = line.Kind == HostLineKind.Ack && line.Boot.Value == boot && line.Sequence <= state.Last;
        if (counts && state.IsOn && state.Holder == line.Host)
            acknowledged = Math.Max(acknowledged, line.Sequence);
        seen |= 1UL << (int)line.Kind;
        Give(new InstrumentLinkInput.HostLineArrived(line, At, Tick));
    }

    public void Happen(int events)
    {
        for (; events > 0; events--)
            Give(new InstrumentLinkInput.Happened(InstrumentEvent.LensMoved(Tick, events % 2 == 0), At, Tick));
    }

    public void CarryOut()
    {
        if (commands.TryDequeue(out var command))
            Give(new InstrumentLinkInput.CarriedOut(command.Host, command.Number, CommandAnswer.Ok, "", At, Tick));
    }

    public void Restart()
    {
        Give(new InstrumentLinkInput.PowerCut(At, Tick));
        (boot, acknowledged) = (boot + 1, 0);
        commands.Clear();
        Give(new InstrumentLinkInput.SwitchedOn(new BootNumber(boot), At, Tick));
    }

    public void Pass(int milliseconds)
    {
        var until = At + TimeSpan.FromMilliseconds(milliseconds);
        for (var steps = 0; state.NextDue is { } due && due <= until; steps++)
        {
            At = due > At ? due : At;
            Give(new InstrumentLinkInput.TimePassed(At, Tick));
            if (steps > 100 + milliseconds)
                throw new Finding(
                    "The instrument wants to be woken again and again",
                    $"{steps} times in {milliseconds} ms"
                );
        }

        At = until;
    }

    private void Check(ReadOnlySpan<byte> line)
    {
        Span<short> ends = stackalloc short[128];
        if (line[^1] != 10 || ReferenceDecoder.Open(line[..^1], out var body) != ReferenceKind.Known)
            throw new Finding("The instrument sends a line that is none", Readable.Of(line));
        var fields = new ReferenceFields(body, ends);
        if (ReferenceDecoder.OfInstrument(fields).Kind is not (ReferenceKind.Known or ReferenceKind.UnknownEvent))
            throw new Finding("The instrument sends a line that cannot be read", Readable.Of(line));
        seen |= 1UL << (16 + (fields[0][0] & 31));
        if (!fields.Is(0, "EV"u8) || fields.Is(4, "GAP"u8))
            return;
        var key = (boot << 40) | fields.Number(2)!.Value;
        var crc = ReferenceCrc.Of(body);
        if (told.TryGetValue(key, out var before) && before != crc)
            throw new Finding("An event was sent again with another content", Readable.Of(line));
        told[key] = crc;
    }
}
