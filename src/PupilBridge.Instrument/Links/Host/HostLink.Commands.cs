namespace PupilBridge.Instrument.Links;

/// <content>Commands: one on its way at a time, three tries, every one ends.</content>
public static partial class HostLink
{
    private static void OnWish(Turn turn, HostLinkInput.Wish wish)
    {
        if (turn.State.Phase is HostLinkPhase.Connected or HostLinkPhase.Placing)
        {
            turn.State = turn.State with { Wishes = turn.State.Wishes.Enqueue(wish) };
            SendNextWish(turn);
        }
        else
        {
            turn.Do(
                new HostLinkOutput.CommandEnded(wish.Number, CommandOutcome.NotSent, "The instrument is not connected.")
            );
        }
    }

    private static void SendNextWish(Turn turn)
    {
        var state = turn.State;
        if (state.Phase != HostLinkPhase.Connected || state.Sent is not null || state.Wishes.IsEmpty)
            return;
        var rest = state.Wishes.Dequeue(out var wish);
        turn.State = state with { Wishes = rest };
        Try(turn, new SentCommand(wish.Number, wish.Command, 0, turn.Now, Busy: false));
    }

    private static void Try(Turn turn, SentCommand command)
    {
        turn.State = turn.State with
        {
            Sent = command with { Tries = command.Tries + 1, LastTryAt = turn.Now, Busy = false },
        };
        turn.Say(HostLine.Ask(turn.State.Host, command.Number, command.Command));
    }

    private static void OnReply(Turn turn, CommandReply reply)
    {
        if (turn.State.Sent is not { } sent || reply.Host != turn.State.Host || reply.Number != sent.Number)
            return;
        if (reply.Answer == CommandAnswer.Busy)
        {
            turn.State = turn.State with { Sent = sent with { Busy = true } };
            return;
        }

        var outcome = reply.Answer switch
        {
            CommandAnswer.Ok => CommandOutcome.Done,
            CommandAnswer.Refused => CommandOutcome.Refused,
            _ => CommandOutcome.Unknown,
        };
        EndSent(turn, sent, outcome, reply.Reason.ToString());
    }

    private static void EndSent(Turn turn, SentCommand sent, CommandOutcome outcome, string reason)
    {
        turn.State = turn.State with { Sent = null };
        turn.Do(new HostLinkOutput.CommandEnded(sent.Number, outcome, reason));
        SendNextWish(turn);
    }

    private static void EndCommands(Turn turn, string reason)
    {
        var (sent, wishes) = (turn.State.Sent, turn.State.Wishes);
        turn.State = turn.State with { Sent = null, Wishes = [] };
        if (sent is not null)
            turn.Do(new HostLinkOutput.CommandEnded(sent.Number, CommandOutcome.NoAnswer, reason));
        foreach (var wish in wishes)
            turn.Do(new HostLinkOutput.CommandEnded(wish.Number, CommandOutcome.NotSent, reason));
    }

    private static void CommandTime(Turn turn)
    {
        if (turn.State.Sent is not { } sent || turn.Now - sent.LastTryAt < LinkTiming.CommandReply)
            return;
        if (sent.Tries < LinkTiming.CommandTries)
            Try(turn, sent);
        else if (sent.Busy)
            EndSent(turn, sent, CommandOutcome.Busy, "The instrument stayed busy.");
        else
            EndSent(turn, sent, CommandOutcome.NoAnswer, $"No reply to {LinkTiming.CommandTries} tries.");
    }
}
