namespace PupilBridge.Instrument.Links;

/// <content>Events in order, losses, conflicts, heartbeats and acknowledgements.</content>
public static partial class HostLink
{
    private const int ConflictsRemembered = 256;

    private static void OnEvent(Turn turn, in InstrumentEvent happened, uint crc, ReadOnlyMemory<byte> raw)
    {
        var state = turn.State;
        if (state.Phase != HostLinkPhase.Connected || state.Progress is not { } progress)
        {
            // It comes before we know where we stand: let it come again.
            turn.State = state with
            {
                ResendWanted = state.Phase == HostLinkPhase.Placing,
            };
            return;
        }

        if (happened.Boot != progress.Boot)
        {
            GreetAgain(turn);
            return;
        }

        turn.State = state with { LastEventAt = turn.Now };
        if (happened.Sequence < progress.Expected)
            OnRepeated(turn, progress, happened, crc, raw);
        else if (happened.Kind == InstrumentEventKind.EventsLost && happened.FirstLost <= progress.Expected)
        {
            if (Believes(turn, progress, happened.Sequence, happened.Tick))
                Lose(turn, progress, happened.Sequence, LossCause.MemoryOverflow, default, raw);
        }
        else if (happened.Sequence == progress.Expected)
            Accept(turn, progress, happened, crc, raw);
        else
            BeforeItsTurn(turn);
    }

    private static void BeforeItsTurn(Turn turn)
    {
        turn.Count(c => c with { BeforeTheirTurn = c.BeforeTheirTurn + 1 });
        turn.State = turn.State with { ResendWanted = true };
    }

    private static void Accept(
        Turn turn,
        BootProgress progress,
        in InstrumentEvent happened,
        uint crc,
        ReadOnlyMemory<byte> raw
    )
    {
        var sequence = happened.Sequence;
        turn.State = turn.State with
        {
            ResendWanted = false,
            Doubted = null,
            Progress = progress with
            {
                Accepted = sequence,
                OffAt = happened.Kind == InstrumentEventKind.SwitchedOff ? sequence : 0,
                Fingerprints = progress.Fingerprints.With(sequence, crc),
            },
        };
        if (happened.Kind is InstrumentEventKind.Unknown or InstrumentEventKind.Unreadable)
            turn.Count(c => c with { UnknownEvents = c.UnknownEvents + 1 });
        turn.Do(new HostLinkOutput.Accept(happened, crc, raw, turn.Now));
    }

    /// <summary>Closes the hole from the next number expected up to the last one lost.</summary>
    private static void Lose(
        Turn turn,
        BootProgress progress,
        long? last,
        LossCause cause,
        HostId otherHost,
        ReadOnlyMemory<byte> raw
    )
    {
        var first = progress.Expected;
        if (last is { } end)
        {
            var prints = progress.Fingerprints;
            for (var lost = Math.Max(first, end - LinkTiming.FingerprintsRemembered + 1); lost <= end; lost++)
                prints = prints.With(lost, null);
            turn.State = turn.State with
            {
                ResendWanted = false,
                Progress = progress with { Accepted = end, Fingerprints = prints },
            };
        }

        turn.Do(new HostLinkOutput.Lost(progress.Serial, progress.Boot, first, last, cause, otherHost, raw, turn.Now));
    }

    private static void OnRepeated(
        Turn turn,
        BootProgress progress,
        in InstrumentEvent happened,
        uint crc,
        ReadOnlyMemory<byte> raw
    )
    {
        turn.Count(c => c with { Duplicates = c.Duplicates + 1 });
        AcknowledgeAgain(turn);
        // A gap grows over numbers that were sent before, and shrinks as they are acknowledged: it never contradicts.
        if (happened.Kind == InstrumentEventKind.EventsLost)
            return;
        // Without a fingerprint the number is too old to compare; with an empty one it stands as lost, yet here it is.
        if (!progress.Fingerprints.TryGet(happened.Sequence, out var known) || known == crc)
            return;
        var key = (happened.Sequence, crc);
        if (progress.Conflicts.Contains(key) || progress.Conflicts.Count >= ConflictsRemembered)
            return;
        turn.State = turn.State with { Progress = progress with { Conflicts = progress.Conflicts.Add(key) } };
        turn.Count(c => c with { Conflicts = c.Conflicts + 1 });
        turn.Do(new HostLinkOutput.Conflicting(happened.Boot, happened.Sequence, raw, turn.Now));
    }

    private static void OnBeat(Turn turn, Heartbeat beat)
    {
        var state = turn.State;
        if (state.Phase is not (HostLinkPhase.Connected or HostLinkPhase.Placing))
            return;
        if (state.Identity?.Boot != beat.Boot)
        {
            GreetAgain(turn);
            return;
        }

        turn.Do(new HostLinkOutput.BeatSeen(beat, turn.Now));
        if (state.Phase != HostLinkPhase.Connected || state.Progress is not { } progress)
            return;
        if (beat.OldestKept > progress.Expected)
        {
            if (Believes(turn, progress, beat.OldestKept - 1, beat.Tick))
                LoseUpTo(turn, progress, beat.OldestKept - 1);
        }
        else if (beat.Last >= progress.Expected && turn.Now - state.LastEventAt >= LinkTiming.TailQuiet)
            turn.State = state with { ResendWanted = true };
        if (beat.OldestKept <= progress.Durable)
            AcknowledgeAgain(turn);
    }

    /// <summary>Another boot shows: ask who is there, without haste and without leaving the present phase.</summary>
    private static void GreetAgain(Turn turn)
    {
        if (turn.Now - turn.State.GreetedAt >= LinkTiming.Greeting)
            Greet(turn, turn.State.Phase);
    }

    private static void OnDurable(Turn turn, HostLinkInput.MadeDurable made)
    {
        if (turn.State.Progress is not { } progress || progress.Boot != made.Boot)
            return;
        // Whatever is declared, nothing is acknowledged that was not handed over.
        var durable = Math.Max(progress.Durable, Math.Min(made.Sequence, progress.Accepted));
        var further = durable > progress.Durable;
        turn.State = turn.State with { Progress = progress with { Durable = durable } };
        if (further && turn.State.Phase == HostLinkPhase.Connected)
            Acknowledge(turn);
    }

    /// <summary>
    /// Takes back what was handed over in vain, ends of earlier boots included, and asks the journal anew where it stands.
    /// </summary>
    private static void OnWritingFailed(Turn turn)
    {
        var state = turn.State;
        if (state.Progress is { } progress)
        {
            var prints = progress.Fingerprints;
            for (var sequence = progress.Durable + 1; sequence <= progress.Accepted; sequence++)
                prints = prints.Without(sequence);
            state = state with { Progress = progress with { Accepted = progress.Durable, Fingerprints = prints } };
        }

        turn.State = state with { EndedBoots = [] };
        if (!Speaks(state.Phase) || state.Identity is not { } identity)
            return;
        turn.State = turn.State with { Phase = HostLinkPhase.Placing, ResendWanted = true };
        turn.Do(new HostLinkOutput.AskPosition(identity.Serial, identity.Boot));
    }

    private static void AcknowledgeAgain(Turn turn)
    {
        if (turn.State.LastAckAt is not { } last || turn.Now - last >= LinkTiming.RepeatedAck)
            Acknowledge(turn);
    }

    private static void Acknowledge(Turn turn)
    {
        if (turn.State.Identity is not { } identity)
            return;
        var durable = turn.State.Progress is { } progress && progress.Boot == identity.Boot ? progress.Durable : 0;
        turn.State = turn.State with { LastAckAt = turn.Now };
        turn.Say(HostLine.Ack(turn.State.Host, identity.Boot, durable));
    }
}
