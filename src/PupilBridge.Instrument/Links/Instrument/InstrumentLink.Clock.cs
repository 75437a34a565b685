namespace PupilBridge.Instrument.Links;

/// <content>What is done because time passed.</content>
public static partial class InstrumentLink
{
    internal static TimeSpan? NextDue(InstrumentLinkState state)
    {
        if (!state.IsOn)
            return null;
        var due = state.NextBeatAt;
        if (state.Listening)
            due = Min(due, state.LastHeardAt + LinkTiming.Hold);
        return state.Phase switch
        {
            InstrumentLinkPhase.Sending => Min(due, state.LineBusyUntil - LinkTiming.LineAhead),
            InstrumentLinkPhase.Waiting => Min(due, RetransmitAt(state)),
            _ => due,
        };

        static TimeSpan Min(TimeSpan one, TimeSpan other) => one < other ? one : other;
    }

    private static void OnTime(Turn turn)
    {
        if (turn.State.Listening && turn.At - turn.State.LastHeardAt >= LinkTiming.Hold)
            turn.State = turn.State with { Listening = false };
        if (turn.At >= turn.State.NextBeatAt)
            Beat(turn);
        if (turn.State.Phase == InstrumentLinkPhase.Waiting && turn.At >= RetransmitAt(turn.State))
            SendFrom(turn, turn.State.OldestKept);
        Pump(turn);
    }

    private static TimeSpan RetransmitAt(InstrumentLinkState state) => state.LastProgressAt + LinkTiming.Retransmission;

    private static void Beat(Turn turn)
    {
        var state = turn.State;
        turn.State = state with { NextBeatAt = state.At + LinkTiming.Heartbeat };
        turn.Say(
            new InstrumentLine(new Heartbeat(state.Boot, state.Now, state.OldestKept, state.Last, state.BatteryPercent))
        );
    }
}
