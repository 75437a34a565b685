namespace PupilBridge.Instrument.Links;

/// <content>What is done because time passed.</content>
public static partial class HostLink
{
    internal static TimeSpan? NextDue(HostLinkState state)
    {
        if (state.Phase is HostLinkPhase.Closed or HostLinkPhase.Ended)
            return null;
        var due = state.LastGoodLineAt + LinkTiming.Stall;
        if (GreetingPause(state.Phase) is { } pause)
            due = Min(due, state.GreetedAt + pause);
        if (Speaks(state.Phase))
            due = Min(due, (state.LastAckAt ?? state.GreetedAt) + LinkTiming.KeepAlive);
        if (state.Phase != HostLinkPhase.Connected)
            return due;
        if (state.ResendWanted)
            due = Min(due, (state.LastResendAt ?? state.Now - LinkTiming.Resend) + LinkTiming.Resend);
        if (state.Sent is { } sent)
            due = Min(due, sent.LastTryAt + LinkTiming.CommandReply);
        return due;

        static TimeSpan Min(TimeSpan one, TimeSpan other) => one < other ? one : other;
    }

    private static void OnTime(Turn turn)
    {
        var state = turn.State;
        if (state.Phase is HostLinkPhase.Closed or HostLinkPhase.Ended)
            return;
        if (turn.Now - state.LastGoodLineAt >= LinkTiming.Stall)
        {
            turn.State = state with { Phase = HostLinkPhase.Ended, Draft = null };
            EndCommands(turn, "The line is dead.");
            turn.Do(new HostLinkOutput.Stalled(state.FaultySinceGood, state.EverGood));
            return;
        }

        if (GreetingPause(state.Phase) is { } pause && turn.Now - state.GreetedAt >= pause)
            Greet(turn, state.Phase);
        if (Speaks(state.Phase) && turn.Now - (state.LastAckAt ?? state.GreetedAt) >= LinkTiming.KeepAlive)
            Acknowledge(turn);
        if (turn.State.Phase != HostLinkPhase.Connected)
            return;
        CommandTime(turn);
        AskAgain(turn);
    }

    private static void AskAgain(Turn turn)
    {
        var state = turn.State;
        var tooSoon = state.LastResendAt is { } last && turn.Now - last < LinkTiming.Resend;
        if (!state.ResendWanted || tooSoon || state.Progress is not { } progress)
            return;
        turn.State = state with { ResendWanted = false, LastResendAt = turn.Now };
        turn.Count(c => c with { ResendsAsked = c.ResendsAsked + 1 });
        turn.Say(HostLine.Resend(state.Host, progress.Boot, progress.Expected));
    }

    private static bool Speaks(HostLinkPhase phase) => phase is HostLinkPhase.Connected or HostLinkPhase.Placing;

    private static TimeSpan? GreetingPause(HostLinkPhase phase) =>
        phase switch
        {
            HostLinkPhase.Greeting => LinkTiming.Greeting,
            HostLinkPhase.Held => LinkTiming.GreetingWhileHeld,
            HostLinkPhase.NoVersion => LinkTiming.GreetingWithoutVersion,
            _ => null,
        };
}
