using System.Globalization;
using System.Text;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Links;

/// <content>Keeping, sending, and losing honestly.</content>
public static partial class InstrumentLink
{
    private static void OnHappened(Turn turn, in InstrumentEvent happened)
    {
        var numbered = happened with { Boot = turn.State.Boot, Sequence = turn.State.Last + 1 };
        Keep(turn, happened.Tick, Encoded(new InstrumentLine(numbered)));
        if (happened.Kind == InstrumentEventKind.SwitchedOff)
            turn.State = turn.State with { SwitchingOff = true };
    }

    private static void OnHappenedVerbatim(Turn turn, InstrumentLinkInput.HappenedVerbatim verbatim)
    {
        var text = verbatim.KindAndFields;
        if (text.Length is 0 or > AsciiText.MaxLength || text.AsSpan().ContainsAnyExceptInRange(' ', '~'))
            throw new ArgumentException($"An event's kind and fields have 1 to 40 printable characters, not '{text}'.");
        var tick = verbatim.Now.Milliseconds.ToString(CultureInfo.InvariantCulture);
        var body = $"EV,{turn.State.Boot},{turn.State.Last + 1},{tick},{text}";
        var crc = LineCrc.Of(Encoding.ASCII.GetBytes(body)).ToString("X8", CultureInfo.InvariantCulture);
        Keep(turn, verbatim.Now, Encoding.ASCII.GetBytes($"{body}*{crc}\n"));
    }

    private static void Keep(Turn turn, Tick tick, ReadOnlyMemory<byte> bytes)
    {
        // Off is the last event of a boot: what comes after it does not count.
        if (turn.State.SwitchingOff)
            return;
        if (turn.State.Kept.Count >= turn.State.Setup.KeptCapacity)
            DropOldest(turn);
        var state = turn.State;
        var sequence = state.Last + 1;
        turn.State = state with
        {
            Last = sequence,
            Kept = state.Kept.Add(new KeptEvent(sequence, sequence, tick, bytes)),
            LastProgressAt = state.Kept.IsEmpty ? state.At : state.LastProgressAt,
        };
    }

    /// <summary>Puts one gap in the place of the two oldest, of which the first may be a gap already.</summary>
    private static void DropOldest(Turn turn)
    {
        var kept = turn.State.Kept;
        var gap = GapOf(turn, kept[0].First, kept[1].Sequence, kept[1].Tick);
        turn.State = turn.State with { Kept = kept.RemoveRange(0, 2).Insert(0, gap) };
    }

    private static KeptEvent GapOf(Turn turn, long first, long sequence, Tick tick)
    {
        var gap = InstrumentEvent.EventsLost(tick, first) with { Boot = turn.State.Boot, Sequence = sequence };
        return new KeptEvent(first, sequence, tick, Encoded(new InstrumentLine(gap)));
    }

    /// <summary>Sends from the cursor on as long as the line has room.</summary>
    private static void Pump(Turn turn)
    {
        while (turn.State is { Listening: true, LinkUp: true } state && state.Cursor <= state.Last)
        {
            if (state.LineBusyUntil > state.At + LinkTiming.LineAhead)
                return;
            // What lies below the oldest kept is acknowledged; what lies within a gap is told by the gap.
            var index = Math.Max(0, (int)(state.Cursor - state.Kept[0].Sequence));
            var next = state.Kept[index];
            turn.State = state with { Cursor = next.Sequence + 1 };
            turn.Say(next.Bytes);

            if (index > 0)
                continue;

            // The wait for an answer begins as the oldest event's last byte leaves. Heartbeats and younger events that
            // follow do not put the repetition off.
            var busyUntil = turn.State.LineBusyUntil;
            turn.State = turn.State with { LastProgressAt = busyUntil > turn.At ? busyUntil : turn.At };
        }
    }

    private static void OnAck(Turn turn, HostLine ack)
    {
        var state = turn.State;
        if (ack.Boot != state.Boot || ack.Sequence > state.Last || ack.Sequence <= state.Acknowledged)
            return;
        var kept = state.Kept;
        while (!kept.IsEmpty && kept[0].Sequence <= ack.Sequence)
            kept = kept.RemoveAt(0);
        if (!kept.IsEmpty && kept[0].First <= ack.Sequence)
            kept = kept.SetItem(0, GapOf(turn, ack.Sequence + 1, kept[0].Sequence, kept[0].Tick));
        turn.State = state with
        {
            Kept = kept,
            Acknowledged = ack.Sequence,
            AcknowledgedBy = ack.Host,
            Cursor = Math.Max(state.Cursor, ack.Sequence + 1),
            LastProgressAt = state.At,
        };
    }

    private static void OnResend(Turn turn, HostLine resend)
    {
        if (resend.Boot != turn.State.Boot)
            return;
        var oldest = turn.State.OldestKept;
        // Asked for what is no longer there: the heartbeat says at once from where on there is anything.
        if (resend.Sequence < oldest)
            Beat(turn);
        SendFrom(turn, Math.Min(Math.Max(resend.Sequence, oldest), turn.State.Last + 1));
    }

    private static void SendFrom(Turn turn, long sequence) =>
        turn.State = turn.State with { Cursor = sequence, LastProgressAt = turn.At };

    private static void OnMoved(Turn turn, Eye eye, Micrometres position)
    {
        var state = turn.State;
        var soon = state.LastMovedAt[eye] is { } last && state.At - last < LinkTiming.LivePosition;
        // A picture of the moment is worth nothing behind a backlog, and must not delay it.
        if (!state.Listening || soon || state.Cursor <= state.Last)
            return;
        turn.State = state with { LastMovedAt = state.LastMovedAt.With(eye, state.At) };
        turn.Say(new InstrumentLine(new LivePosition(eye, position, state.Now)));
    }
}
