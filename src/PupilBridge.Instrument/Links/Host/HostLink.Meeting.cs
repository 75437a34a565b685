using System.Collections.Immutable;
using PupilBridge.Instrument.Wire;

namespace PupilBridge.Instrument.Links;

/// <content>Greeting, identity, refusals, and the journal's position.</content>
public static partial class HostLink
{
    private static void Greet(Turn turn, HostLinkPhase phase)
    {
        turn.State = turn.State with { Phase = phase, GreetedAt = turn.Now };
        var who = HostLine.Who(turn.State.Host, WireLimits.LowestVersion, WireLimits.HighestVersion);
        turn.Say(turn.State.Taking ? who with { Kind = HostLineKind.Take } : who);
    }

    private static void OnTakeOver(Turn turn)
    {
        if (turn.State.Phase is HostLinkPhase.Closed or HostLinkPhase.Ended)
            return;
        // Until an identity comes, every further greeting takes over too: the first may be lost on the line.
        turn.State = turn.State with
        {
            Taking = true,
            Draft = null,
        };
        Greet(turn, HostLinkPhase.Greeting);
    }

    private static void OnHeld(Turn turn, HeldByOther held)
    {
        // Our own number here would be an instrument that contradicts itself; nothing follows from it.
        if (held.Holder == turn.State.Host)
            return;
        turn.State = turn.State with { Phase = HostLinkPhase.Held, Draft = null };
        EndCommands(turn, $"Host {held.Holder} holds the instrument.");
        turn.Do(new HostLinkOutput.RefusedHeld(held.Holder, held.SecondsSinceHeard));
    }

    private static void OnNoVersion(Turn turn, int lowest, int highest)
    {
        turn.State = turn.State with { Phase = HostLinkPhase.NoVersion, Draft = null };
        EndCommands(turn, "There is no common protocol version.");
        turn.Do(new HostLinkOutput.RefusedVersion(lowest, highest));
    }

    private static void OnIdentityLine(Turn turn, in InstrumentLine line, ReadOnlyMemory<byte> raw)
    {
        var draft = turn.State.Draft;
        if (line.Kind == InstrumentLineKind.Identity)
            draft = new IdentityDraft(line.Identity, [], null, []);
        if (draft is null)
            return;
        draft = draft with { RawLines = draft.RawLines.Add(raw) };
        var whole = draft.Stops.Length == draft.Head.StopCount;
        if (line.Kind == InstrumentLineKind.Stop)
        {
            // A stop that is missing or comes twice spoils the draft; the greeting is repeated when its time is up.
            var next = line.Stop.Index == draft.Stops.Length + 1 && !whole;
            draft = next ? draft with { Stops = draft.Stops.Add(line.Stop) } : null;
        }
        else if (line.Kind == InstrumentLineKind.Scale)
        {
            var scale = line.Scale;
            if (whole && scale.Eye == Eye.Left && draft.Right is { } right)
            {
                turn.State = turn.State with { Draft = null };
                OnIdentity(turn, Complete(draft, right, scale.Scale), draft.RawLines);
                return;
            }

            draft = whole && scale.Eye == Eye.Right ? draft with { Right = scale.Scale } : null;
        }

        turn.State = turn.State with { Draft = draft };
    }

    private static InstrumentIdentity Complete(IdentityDraft draft, ScaleDescription right, ScaleDescription left) =>
        new()
        {
            Version = draft.Head.Version,
            Serial = new SerialNumber(draft.Head.Serial.ToString()),
            Model = draft.Head.Model.ToString(),
            Firmware = draft.Head.Firmware.ToString(),
            Boot = draft.Head.Boot,
            Abilities = draft.Head.Abilities,
            Stops = draft.Stops,
            Scales = new PerEye<ScaleDescription> { Right = right, Left = left },
            Acknowledged = draft.Head.Acknowledged,
            AcknowledgedBy = draft.Head.AcknowledgedBy,
        };

    private static void OnIdentity(Turn turn, InstrumentIdentity now, ImmutableArray<ReadOnlyMemory<byte>> rawLines)
    {
        var before = turn.State.Identity;
        if (now.Version is < WireLimits.LowestVersion or > WireLimits.HighestVersion)
        {
            OnNoVersion(turn, now.Version, now.Version);
            return;
        }

        if (before is not null && before.Serial != now.Serial)
        {
            turn.State = turn.State with { Phase = HostLinkPhase.Ended };
            EndCommands(turn, "Another instrument answers on the port.");
            turn.Do(new HostLinkOutput.RefusedSerialChanged(before.Serial, now.Serial));
            return;
        }

        turn.State = turn.State with { Phase = HostLinkPhase.Placing, Identity = now, Taking = false };
        if (before is null || !IsSame(before, now))
            turn.Do(new HostLinkOutput.Met(now, rawLines, turn.Now));
        if (turn.State.Progress is { } progress && progress.Serial == now.Serial && progress.Boot != now.Boot)
            EndBoot(turn, progress);
        turn.Do(new HostLinkOutput.AskPosition(now.Serial, now.Boot));
    }

    private static bool IsSame(InstrumentIdentity before, InstrumentIdentity now) =>
        before.Stops.SequenceEqual(now.Stops)
        && before with
        {
            Stops = now.Stops,
            Acknowledged = now.Acknowledged,
            AcknowledgedBy = now.AcknowledgedBy,
        } == now;

    private static void EndBoot(Turn turn, BootProgress progress)
    {
        turn.State = turn.State with { Progress = null, Doubted = null };
        RememberEnded(turn, progress.Boot);
        if (turn.State.Sent is not null)
            EndCommands(turn, "The instrument was switched off and on again.");
        if (!progress.SwitchedOff)
            Lose(turn, progress, null, LossCause.BootEnded, default, default);
    }

    private static void OnPositionKnown(Turn turn, HostLinkInput.PositionKnown known)
    {
        var state = turn.State;
        if (state.Phase != HostLinkPhase.Placing || state.Identity is not { } identity || identity.Boot != known.Boot)
            return;
        var before =
            state.Progress is { } kept && kept.Serial == identity.Serial && kept.Boot == known.Boot ? kept : null;
        var progress = Merge(before, identity.Serial, known);
        turn.State = state with { Progress = progress, Phase = HostLinkPhase.Connected, LastEventAt = turn.Now };
        foreach (var open in known.OpenBoots)
            CloseEarlierBoot(turn, identity.Serial, open);
        // Of more than that the heartbeat must tell as well; it comes right after the identity.
        if (identity.Acknowledged - progress.Accepted is > 0 and <= LinkTiming.LossAtOnce)
            LoseAcknowledged(turn, progress, identity, identity.Acknowledged);

        Acknowledge(turn);
        turn.Do(new HostLinkOutput.Connected(identity));
        SendNextWish(turn);
    }

    private static BootProgress Merge(BootProgress? before, SerialNumber serial, HostLinkInput.PositionKnown known)
    {
        // What was handed over before the port was lost may still be on its way to the disk: it must not be taken twice.
        var progress = before ?? new BootProgress { Serial = serial, Boot = known.Boot };
        var prints = progress.Fingerprints;
        foreach (var (sequence, crc) in known.Fingerprints)
            prints = prints.With(sequence, crc);
        return progress with
        {
            Accepted = Math.Max(progress.Accepted, known.LastDurable),
            Durable = Math.Max(progress.Durable, known.LastDurable),
            OffAt = known.Ended ? known.LastDurable : progress.OffAt,
            Fingerprints = prints,
        };
    }

    private static void CloseEarlierBoot(Turn turn, SerialNumber serial, OpenBoot open)
    {
        if (turn.State.EndedBoots.Contains(open.Boot) || open.Boot == turn.State.Progress?.Boot)
            return;
        RememberEnded(turn, open.Boot);
        turn.Do(
            new HostLinkOutput.Lost(
                serial,
                open.Boot,
                open.Last + 1,
                null,
                LossCause.BootEnded,
                default,
                default,
                turn.Now
            )
        );
    }

    // By then the journal itself tells of the first ones; an instrument that draws boots without end costs no memory.
    private static void RememberEnded(Turn turn, BootNumber boot)
    {
        var ended = turn.State.EndedBoots;
        ended = ended.Count < LinkTiming.EndedBootsRemembered ? ended : ended.Clear();
        turn.State = turn.State with { EndedBoots = ended.Add(boot) };
    }
}
