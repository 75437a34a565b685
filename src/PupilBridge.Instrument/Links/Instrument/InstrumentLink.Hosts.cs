namespace PupilBridge.Instrument.Links;

/// <content>Greeting, holding, refusing, and commands.</content>
public static partial class InstrumentLink
{
    private static void OnHostLine(Turn turn, HostLine line)
    {
        if (!turn.State.LinkUp || line.Kind == HostLineKind.Unknown)
            return;
        if (line.Kind is HostLineKind.Who or HostLineKind.Take)
        {
            OnGreeting(turn, line);
            return;
        }

        // Before any greeting of this boot there is nobody to serve; the heartbeat tells the host of the new boot.
        if (!turn.State.Holder.IsKnown)
            return;
        if (turn.State.Holder != line.Host)
        {
            Refuse(turn);
            return;
        }

        Hear(turn);
        switch (line.Kind)
        {
            case HostLineKind.Ack:
                OnAck(turn, line);
                break;
            case HostLineKind.Resend:
                OnResend(turn, line);
                break;
            default:
                OnCommand(turn, line);
                break;
        }
    }

    private static void OnGreeting(Turn turn, HostLine line)
    {
        var state = turn.State;
        var version = Math.Min(line.HighestVersion, state.Setup.HighestVersion);
        if (version < Math.Max(line.LowestVersion, state.Setup.LowestVersion))
        {
            turn.Say(
                new InstrumentLine(new VersionRange((byte)state.Setup.LowestVersion, (byte)state.Setup.HighestVersion))
            );
            return;
        }

        var other = state.Holder.IsKnown && state.Holder != line.Host;
        if (other && line.Kind == HostLineKind.Who && state.At - state.LastHeardAt < LinkTiming.Hold)
        {
            Refuse(turn);
            return;
        }

        turn.State = state with { Holder = line.Host, ProtocolVersion = version, RefusedAt = null };
        Hear(turn);
        Present(turn);
        // The heartbeat before the kept events gives the host a clock by which to place them.
        Beat(turn);
        SendFrom(turn, turn.State.OldestKept);
    }

    private static void Hear(Turn turn) =>
        turn.State = turn.State with { LastHeardAt = turn.At, Listening = turn.State.LinkUp };

    /// <summary>Names the holder; at most once a second, so that two hosts cannot fill the line with refusals.</summary>
    private static void Refuse(Turn turn)
    {
        var state = turn.State;
        if (state.RefusedAt is { } last && state.At - last < LinkTiming.Heartbeat)
            return;
        turn.State = state with { RefusedAt = state.At };
        var seconds = (int)Math.Min((state.At - state.LastHeardAt).TotalSeconds, Wire.WireLimits.MaxHeldSeconds);
        turn.Say(new InstrumentLine(new HeldByOther(state.Holder, seconds)));
    }

    private static void Present(Turn turn)
    {
        var state = turn.State;
        var identity = state.Setup.Identity;
        turn.Say(
            new InstrumentLine(
                new IdentityHead(
                    (byte)state.ProtocolVersion,
                    AsciiText.From(identity.Serial.Value),
                    AsciiText.From(identity.Model),
                    AsciiText.From(identity.Firmware),
                    state.Boot,
                    identity.Abilities,
                    (byte)identity.Stops.Length,
                    state.Acknowledged,
                    state.AcknowledgedBy
                )
            )
        );
        foreach (var stop in identity.Stops)
            turn.Say(new InstrumentLine(stop));
        foreach (var eye in EyeFacts.Both)
            turn.Say(new InstrumentLine(new EyeScale(eye, identity.Scales[eye])));
    }

    private static void OnCommand(Turn turn, HostLine line)
    {
        var (host, number) = (line.Host, line.CommandNumber);
        if (turn.State.Replies.Find(r => r.Host == host && r.Number == number) is { } known)
        {
            // Not decided yet: the reply goes out when it is.
            if (known.Reply is { } reply)
                turn.Say(new InstrumentLine(reply));
            return;
        }

        if (turn.State.Replies.Exists(r => r.Reply is null))
        {
            // Not remembered, so that the same number may be asked again.
            turn.Say(new InstrumentLine(new CommandReply(host, number, CommandAnswer.Busy, default)));
            return;
        }

        Remember(turn, new RememberedReply(host, number, null));
        switch (line.Command.Kind)
        {
            // A train is the only command with fields. Who takes none does not look at them.
            case InstrumentCommandKind.Unreadable when Can(turn, InstrumentAbilities.StimulusProfile):
                OnCarriedOut(turn, new(host, number, CommandAnswer.Refused, AsciiText.From("fields out of range")));
                break;
            case InstrumentCommandKind.Off when Can(turn, InstrumentAbilities.SwitchOff):
            case InstrumentCommandKind.Train when Can(turn, InstrumentAbilities.StimulusProfile):
                turn.Do(new InstrumentLinkOutput.Execute(host, number, line.Command));
                break;
            default:
                OnCarriedOut(turn, new(host, number, CommandAnswer.Unknown, default));
                break;
        }
    }

    private static bool Can(Turn turn, InstrumentAbilities ability) => turn.State.Setup.Identity.Can(ability);

    private static void Remember(Turn turn, RememberedReply reply)
    {
        var replies = turn.State.Replies.Add(reply);
        if (replies.Count > LinkTiming.RepliesRemembered)
            replies = replies.RemoveAt(0);
        turn.State = turn.State with { Replies = replies };
    }

    private static void OnCarriedOut(Turn turn, CommandReply reply)
    {
        var replies = turn.State.Replies;
        var index = replies.FindIndex(r => r.Host == reply.Host && r.Number == reply.Number && r.Reply is null);
        if (index < 0)
            return;
        turn.State = turn.State with { Replies = replies.SetItem(index, replies[index] with { Reply = reply }) };
        turn.Say(new InstrumentLine(reply));
    }
}
