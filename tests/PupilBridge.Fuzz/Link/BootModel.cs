using System.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Fuzz.Codec;
using PupilBridge.Fuzz.Engine;
using PupilBridge.Instrument;
using PupilBridge.Worker.Keeping;

namespace PupilBridge.Fuzz.Link;

/// <summary>What was given of one boot, as the oracle keeps it: a number, and the checksums of the last lines.</summary>
internal sealed class BootModel
{
    private const int PrintsKept = 1024;
    private readonly Queue<EventPrint> prints = [];

    /// <summary>The last number given, gaps included.</summary>
    public long Submitted { get; private set; }

    /// <summary>The last number that is durable.</summary>
    public long Durable { get; set; }

    /// <summary>Whether it is durable that the boot ended.</summary>
    public bool Ended { get; private set; }

    public EventPosition Position(BootNumber boot) => new(boot, Submitted, Durable, Ended, [.. prints]);

    /// <summary>An event is given: it must be the next, and its line must say what the entry says.</summary>
    public void Report(InstrumentReported reported)
    {
        if (reported.Sequence != Submitted + 1)
            throw new Finding("An event is given twice, or out of order", $"{reported.Sequence} after {Submitted}");
        Submitted = reported.Sequence;
        var line = Encoding.ASCII.GetBytes(reported.RawLine);
        Span<short> ends = stackalloc short[128];
        if (ReferenceDecoder.Open(line, out var body) != ReferenceKind.Known)
            throw new Finding("A line that is none is given to the journal", reported.RawLine);
        var fields = new ReferenceFields(body, ends);
        if (!ReferenceDecoder.OfInstrument(fields).IsTaken || !fields.Is(0, "EV"u8))
            throw new Finding("A line that is no event is given as one", reported.RawLine);
        if (fields.Number(2) != (ulong)reported.Sequence || !fields.Is(1, Encoding.ASCII.GetBytes($"{reported.Boot}")))
            throw new Finding("An event is given under another number than its line has", reported.RawLine);
        Ended |= fields.Is(4, "OFF"u8) && Durable == reported.Sequence;
        Note(new EventPrint(reported.Sequence, ReferenceCrc.Of(body)));
    }

    /// <summary>A loss is given: it must begin where the events ended, and be one that can be (docs/protocol.md, section 11).</summary>
    public void Lose(EventsLost lost, ulong highestTick)
    {
        if (lost.Last is { } end && end - Submitted > 1000 && (ulong)end > highestTick + 1000)
            throw new Finding(
                "A loss is taken that cannot be",
                $"{lost.First} to {lost.Last} at a tick of {highestTick} at most"
            );
        if (lost.First != Submitted + 1 || lost.Last < lost.First)
            throw new Finding("A loss is told of that is none", $"{lost.First} to {lost.Last} after {Submitted}");
        if (lost.Last is not { } last)
            return;
        for (var one = Math.Max(lost.First, last - PrintsKept + 1); one <= last; one++)
            Note(new EventPrint(one, null));
        Submitted = last;
    }

    public void MakeDurable(EventsLost lost)
    {
        Durable = lost.Last ?? Durable;
        Ended |= lost.Last is null;
    }

    private void Note(EventPrint print)
    {
        prints.Enqueue(print);
        if (prints.Count > PrintsKept)
            prints.Dequeue();
    }
}
