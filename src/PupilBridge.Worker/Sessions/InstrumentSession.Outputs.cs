using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;
using PupilBridge.Instrument.Links;
using PupilBridge.Instrument.Wire;
using PupilBridge.Worker.Live;

namespace PupilBridge.Worker.Sessions;

/// <content>What the link wants, done.</content>
internal sealed partial class InstrumentSession
{
    private void Do(HostLinkOutput output, Moment now)
    {
        switch (output)
        {
            case HostLinkOutput.Send send:
                Send(send.Line);
                break;
            case HostLinkOutput.Met met:
                OnMet(met, now);
                break;
            case HostLinkOutput.AskPosition ask:
                asked = (ask.Serial, ask.Boot);
                TryAnswerPosition(now);
                break;
            case HostLinkOutput.Connected:
                OnConnected(now);
                break;
            case HostLinkOutput.Accept accept:
                OnAccepted(accept, now);
                break;
            case HostLinkOutput.LossDoubted doubted:
                OnDoubted(doubted);
                break;
            case HostLinkOutput.Lost lost:
                doubt = "";
                around.Submit(LinkEntries.Lost(lost, now));
                break;
            case HostLinkOutput.Conflicting conflict when Serial is { } serial:
                around.Submit(LinkEntries.Conflict(conflict, serial, now));
                break;
            case HostLinkOutput.PositionSeen seen:
                Update(state => state.After(seen.Position, now.Utc));
                break;
            case HostLinkOutput.BeatSeen beat:
                OnBeat(beat.Beat, now);
                break;
            case HostLinkOutput.CommandEnded command:
                OnCommandEnded(command, now);
                break;
            default:
                OnRefused(output, now);
                break;
        }
    }

    private void Send(HostLine line)
    {
        Span<byte> bytes = stackalloc byte[WireLimits.MaxLineBytes];
        around.Send(bytes[..HostLineEncoder.Encode(line, bytes)]);
    }

    private void OnMet(HostLinkOutput.Met met, Moment now)
    {
        var identity = met.Identity;
        if (around.Claim(identity.Serial) is { } other)
        {
            End(
                PortPhase.WrongInstrument,
                $"The instrument on {settings.Port} claims the serial number {identity.Serial}, which is live on {other}. "
                    + "Nothing of it is recorded. Unplug one of the two; if they are two instruments, have the maker give "
                    + "one of them a serial number of its own."
            );
            return;
        }

        around.Submit(LinkEntries.Met(met, settings.Port, now));
        ShowMet(identity, now);
    }

    private void OnConnected(Moment now)
    {
        if (!connected)
        {
            connected = true;
            around.Submit(LineEntry(LineState.Connected, "", now));
        }

        connectedAt = now.Monotonic;
        Update(state => state with { IsConnected = true, HeardAt = now.Utc });
    }

    /// <summary>Told beside the port until events flow on; a single false line shows for a moment only.</summary>
    private void OnDoubted(HostLinkOutput.LossDoubted doubted) =>
        doubt = doubted.Possible
            ? $"{SentenceStart} on {settings.Port} says that events {doubted.First} to {doubted.Last} are lost. It was asked once more."
            : $"{SentenceStart} on {settings.Port} says that events {doubted.First} to {doubted.Last} are lost, which cannot be: it has not "
                + "been on for long enough. Nothing is taken for lost. If this goes on, switch it off and on, and report it to its maker.";

    private void OnAccepted(HostLinkOutput.Accept accept, Moment now)
    {
        doubt = "";
        if (Serial is not { } serial)
            return;
        var estimate = clock.Estimate(accept.Event.Boot, accept.Event.Tick, now);
        around.Submit(LinkEntries.Reported(accept, serial, estimate, now));
        Update(state => state.After(accept.Event, estimate.HappenedAt.ToDateTimeOffset()) with { HeardAt = now.Utc });
    }

    private void OnBeat(Heartbeat beat, Moment now)
    {
        clock.OnBeat(beat, now);
        Update(state => state with { BatteryPercent = beat.BatteryPercent, HeardAt = now.Utc });
    }

    private void OnRefused(HostLinkOutput output, Moment now)
    {
        switch (output)
        {
            case HostLinkOutput.RefusedHeld held:
                refusal =
                    $"The instrument on {settings.Port} is held by host {held.Holder}, heard {held.SecondsSinceHeard} s ago. "
                    + "It comes to this bridge by itself when that host is silent; to have it now, take it over.";
                break;
            case HostLinkOutput.RefusedVersion version:
                refusal =
                    $"The instrument on {settings.Port} speaks versions {version.Lowest} to {version.Highest} of the line "
                    + $"protocol, this bridge {WireLimits.LowestVersion} to {WireLimits.HighestVersion}. Install a newer "
                    + "version of the bridge, or of the instrument's program.";
                break;
            case HostLinkOutput.RefusedSerialChanged changed:
                End(
                    PortPhase.WrongInstrument,
                    $"On {settings.Port} the instrument {changed.Before} was followed by {changed.Now} without the line being "
                        + "lost. The line begins anew."
                );
                break;
            case HostLinkOutput.Stalled stalled:
                OnStalled(stalled, now);
                break;
        }
    }

    private void OnStalled(HostLinkOutput.Stalled stalled, Moment now)
    {
        if (stalled.EverGood)
        {
            // After it said that it switches off, silence is what was wished, and nobody need look after a cable.
            var reason = link.Progress is { SwitchedOff: true }
                ? $"{SentenceStart} on {settings.Port} switched off, and has been silent since."
                : $"Nothing was heard from {Who} on {settings.Port} for {LinkTiming.Stall.TotalSeconds:0} s. Check that it is on and the cable is in.";
            OnLineEnded(LineState.Stalled, reason, now);
            End(PortPhase.Silent, reason);
            return;
        }

        refusal =
            stalled.FaultyLines > 0
                ? $"What comes from {settings.Port} cannot be read. Check the baud rate (here {settings.Baud}) and that an "
                    + "instrument is connected there."
                : $"Nothing comes from {settings.Port}. Switch the instrument on, and check the cable.";
        if (++silentRounds >= SessionSettings.SilentRounds)
        {
            End(PortPhase.Silent, refusal);
            return;
        }

        // The port stays open and is greeted anew, so that an instrument that is switched on now is met at once.
        link = HostLinkState.New(settings.Host) with
        {
            Counters = link.Counters,
        };
        inputs.Enqueue(new HostLinkInput.Opened(now.Monotonic));
    }

    private void OnLineEnded(LineState state, string reason, Moment now)
    {
        if (!connected)
            return;
        connected = false;
        around.Submit(LineEntry(state, reason, now));
        Update(live => live with { IsConnected = false });
    }

    private LineChanged LineEntry(LineState state, string reason, Moment now) =>
        new()
        {
            At = now.At,
            Serial = Serial,
            PortName = settings.Port,
            State = state,
            Reason = reason,
        };

    private string SentenceStart => Serial is { } serial ? $"Instrument {serial}" : "The instrument";

    private string Who => Serial is { } serial ? $"instrument {serial}" : "the instrument";
}
