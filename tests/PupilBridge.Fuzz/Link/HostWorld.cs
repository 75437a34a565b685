using PupilBridge.Exams.Entries;
using PupilBridge.Fuzz.Codec;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Fuzz.Link;

/// <summary>
/// The world around a session: a journal that is a list, whose entries become durable when the input says so, and the oracles: each event
/// given once and in order, losses that begin where the events ended, nothing acknowledged that is not durable, few lines for each that comes.
/// </summary>
internal sealed class HostWorld : ISessionSurroundings
{
    private readonly Dictionary<(string Serial, BootNumber Boot), BootModel> boots = [];
    private readonly Queue<JournalEntry> pending = [];
    private readonly TickTimes ticks = new();
    private PortPhase phase;

    /// <summary>How the world was changed, for the signature: a bit for each kind of line, entry and change of phase.</summary>
    public ulong Seen { get; private set; }

    /// <summary>How many lines were sent since this was last set to 0.</summary>
    public int Sent { get; set; }

    /// <summary>How many entries were given.</summary>
    public int Given { get; private set; }

    /// <summary>The highest tick of any well-formed event or heartbeat so far.</summary>
    public ulong HighestTick { get; private set; }

    /// <summary>Whether the line was given up.</summary>
    public bool LineEnded { get; set; }

    public int Waiting => pending.Count;

    public void Send(ReadOnlySpan<byte> line)
    {
        Sent++;
        Span<short> ends = stackalloc short[128];
        if (line[^1] != 10 || ReferenceDecoder.Open(line[..^1], out var body) != ReferenceKind.Known)
            throw new Finding("The host sends a line that is none", Readable.Of(line));
        var fields = new ReferenceFields(body, ends);
        if (ReferenceDecoder.OfHost(fields).Kind != ReferenceKind.Known)
            throw new Finding("The host sends a line that cannot be read", Readable.Of(line));
        Seen |= 1UL << (fields[0][0] & 31);
        if (fields.Is(0, "ACK"u8) && fields.Number(3) > (ulong)DurableOf(fields[2]))
            throw new Finding("The host acknowledges what is not durable", Readable.Of(line));
    }

    public void Submit(JournalEntry entry)
    {
        Given++;
        pending.Enqueue(entry);
        Seen |= 1UL << (32 + (entry.GetType().Name.Length & 15));
        switch (entry)
        {
            case InstrumentReported reported:
                Of(reported.Serial, reported.Boot).Report(reported);
                break;
            case EventsLost lost:
                Of(lost.Serial, lost.Boot).Lose(lost, HighestTick);
                break;
        }
    }

    /// <summary>Takes note of a line that is about to be heard.</summary>
    public void Note(ReadOnlySpan<byte> line)
    {
        if (ReferenceDecoder.Open(line.TrimEnd((byte)10), out var body) != ReferenceKind.Known)
            return;
        Span<short> ends = stackalloc short[128];
        var fields = new ReferenceFields(body, ends);
        var place =
            fields.Is(0, "EV"u8) ? 3
            : fields.Is(0, "BEAT"u8) ? 2
            : 0;
        if (place > 0 && ReferenceDecoder.OfInstrument(fields).IsTaken)
            HighestTick = Math.Max(HighestTick, fields.Number(place)!.Value);
    }

    /// <summary>The oldest entries become durable.</summary>
    public void MakeDurable(int count, InstrumentSession session, Moment now)
    {
        for (; count > 0 && pending.TryDequeue(out var entry); count--)
        {
            if (entry is InstrumentReported reported)
                Of(reported.Serial, reported.Boot).Durable = reported.Sequence;
            else if (entry is EventsLost lost)
                Of(lost.Serial, lost.Boot).MakeDurable(lost);
            session.OnRecorded(entry, now);
        }

        session.OnCaughtUp(now);
    }

    public EventPosition? Find(SerialNumber serial, BootNumber boot) =>
        boots.TryGetValue((serial.Value, boot), out var known) ? known.Position(boot) : null;

    public IReadOnlyList<OpenBoot> OpenBoots(SerialNumber serial, BootNumber present) =>
        [
            .. boots
                .Where(b =>
                    b.Key.Serial == serial.Value && b.Key.Boot != present && b.Value is { Durable: > 0, Ended: false }
                )
                .Select(b => new OpenBoot(b.Key.Boot, b.Value.Submitted)),
        ];

    public string? Claim(SerialNumber serial) => serial.Value == "TAKEN" ? "another port" : null;

    public TickTimes Ticks(SerialNumber serial) => ticks;

    public void Show(LiveInstrument instrument) { }

    public void Show(PortPhase now, string message)
    {
        Seen |= 1UL << (48 + (((int)phase * 3) + (int)now) % 16);
        phase = now;
    }

    public void CommandEnded(uint number, Exams.Entries.CommandOutcome outcome, string reason) =>
        Seen |= 1UL << ((int)outcome & 7);

    public void EndLine(PortPhase why, string message) => LineEnded = true;

    private BootModel Of(SerialNumber serial, BootNumber boot)
    {
        if (!boots.TryGetValue((serial.Value, boot), out var known))
            boots[(serial.Value, boot)] = known = new BootModel();
        return known;
    }

    private long DurableOf(ReadOnlySpan<byte> boot)
    {
        var durable = 0L;
        Span<byte> hex = stackalloc byte[16];
        foreach (var (key, model) in boots)
        {
            ReferenceCrc.Write((uint)(key.Boot.Value >> 32), hex);
            ReferenceCrc.Write((uint)key.Boot.Value, hex[8..]);
            if (hex.SequenceEqual(boot))
                durable = Math.Max(durable, model.Durable);
        }

        return durable;
    }
}
