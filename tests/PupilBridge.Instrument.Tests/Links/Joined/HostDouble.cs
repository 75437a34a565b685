using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Tests.Wire;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Tests.Links.Joined;

/// <summary>What stands in the journal: an event, or a loss.</summary>
internal sealed record JournalEntry(BootNumber Boot, long First, long? Last, byte[]? Raw, bool IsOff, LossCause Cause);

/// <summary>
/// A host around the link: a reader, and a journal whose writer is slow, sometimes fails, and loses what was not written when
/// the process dies.
/// </summary>
internal sealed class HostDouble(FaultyWire toInstrument, Random random)
{
    private readonly Queue<(TimeSpan Due, object What)> writing = [];
    private byte[] unread = [];
    private bool resyncing = true;
    private HostLinkState state = HostLinkState.New(Known.Host);

    internal List<JournalEntry> Journal { get; } = [];

    internal List<HostLinkOutput.Conflicting> Conflicts { get; } = [];

    internal HashSet<(HostLinkPhase From, HostLinkPhase To)> Ways { get; } = [];

    internal bool MustReopen { get; private set; }

    internal HostLinkState State => state;

    internal void Open(TimeSpan now)
    {
        (unread, resyncing, MustReopen) = ([], true, false);
        Give(new HostLinkInput.Opened(now), now);
    }

    internal void Close(TimeSpan now) => Give(new HostLinkInput.Closed(now, "The cable is out."), now);

    /// <summary>The process dies: what was not written is gone, and so is the link's memory.</summary>
    internal void Crash()
    {
        // Some of it may have reached the disk without anyone having been told.
        var written = random.Next(writing.Count + 1);
        foreach (var (_, what) in writing.Take(written))
            Write(what);
        writing.Clear();
        state = HostLinkState.New(Known.Host);
    }

    internal void FailWriting(TimeSpan now)
    {
        writing.Clear();
        Give(new HostLinkInput.WritingFailed(now), now);
    }

    internal void Turn(byte[] read, TimeSpan now)
    {
        unread = [.. unread, .. read];
        while (LineFramer.Next(unread, resyncing) is { Kind: not FrameKind.NeedMore } frame)
        {
            if (frame.Kind == FrameKind.Line)
                Hear(unread[..frame.Length], now);
            else if (frame.TooLong)
                Give(new HostLinkInput.LineFaulty(new(LineFaultKind.TooLong, 0), now), now);
            resyncing = frame.Resyncing;
            unread = unread[frame.Consumed..];
        }

        while (writing.TryPeek(out var next) && next.Due <= now)
        {
            writing.Dequeue();
            if (Write(next.What) is { } told)
                Give(told with { At = now }, now);
        }

        Give(new HostLinkInput.TimePassed(now), now);
    }

    private void Hear(byte[] raw, TimeSpan now) =>
        Give(
            InstrumentLineDecoder.TryDecode(raw, out var line, out var fault)
                ? new HostLinkInput.LineArrived(line, raw, now)
                : new HostLinkInput.LineFaulty(fault, now),
            now
        );

    private void Give(HostLinkInput input, TimeSpan now)
    {
        var step = HostLink.Step(state, input);
        if (state.Phase != step.State.Phase)
            Ways.Add((state.Phase, step.State.Phase));
        state = step.State;
        foreach (var output in step.Outputs)
            Obey(output, now);
    }

    private void Obey(HostLinkOutput output, TimeSpan now)
    {
        switch (output)
        {
            case HostLinkOutput.Send send:
                if (send.Line.Kind == HostLineKind.Ack)
                    Assert.True(send.Line.Sequence <= Covered(send.Line.Boot), "It acknowledged what is not durable.");
                toInstrument.Send(Lines.Of(send.Line), now);
                break;
            case HostLinkOutput.Accept or HostLinkOutput.Lost or HostLinkOutput.AskPosition:
                var last = writing.Count == 0 ? now : writing.Last().Due;
                writing.Enqueue((last + TimeSpan.FromMilliseconds(random.Next(1, 15)), output));
                break;
            case HostLinkOutput.Conflicting conflict:
                Conflicts.Add(conflict);
                break;
            case HostLinkOutput.Stalled:
                MustReopen = true;
                break;
            default:
                break;
        }
    }

    private HostLinkInput? Write(object what)
    {
        switch (what)
        {
            case HostLinkOutput.Accept accept:
                var off = accept.Event.Kind == InstrumentEventKind.SwitchedOff;
                var (boot, sequence) = (accept.Event.Boot, accept.Event.Sequence);
                Journal.Add(new JournalEntry(boot, sequence, sequence, accept.Raw.ToArray(), off, default));
                return new HostLinkInput.MadeDurable(boot, sequence, default);
            case HostLinkOutput.Lost lost:
                Journal.Add(new JournalEntry(lost.Boot, lost.First, lost.Last, null, false, lost.Cause));
                return lost.Last is { } last ? new HostLinkInput.MadeDurable(lost.Boot, last, default) : null;
            case HostLinkOutput.AskPosition ask:
                return Position(ask.Boot);
            default:
                return null;
        }
    }

    private HostLinkInput.PositionKnown Position(BootNumber boot)
    {
        var prints = Journal
            .Where(e => e.Boot == boot && e.Raw is not null)
            .TakeLast(LinkTiming.FingerprintsRemembered)
            .ToDictionary(e => e.First, e => LineCrc.Of(e.Raw.AsSpan()[..^9]));
        var open = Journal
            .GroupBy(e => e.Boot)
            .Where(g => g.Key != boot && g.Last() is { IsOff: false, Last: not null })
            .Select(g => new OpenBoot(g.Key, Covered(g.Key)));
        return new HostLinkInput.PositionKnown(
            boot,
            Covered(boot),
            Journal.LastOrDefault(e => e.Boot == boot)?.IsOff ?? false,
            Known.NoPrints.AddRange(prints),
            [.. open],
            default
        );
    }

    private long Covered(BootNumber boot) =>
        Journal.Where(e => e.Boot == boot && e.Last is not null).Select(e => e.Last!.Value).DefaultIfEmpty().Max();
}
