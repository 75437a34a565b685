using PupilBridge.Conformance.Checks;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Steps;

/// <summary>Has somebody at the instrument do what makes it tell each kind of event.</summary>
internal static class ByHand
{
    public static async Task RunAsync(Bench bench)
    {
        if (bench.Plan.Hands is not { } hands)
        {
            bench.Report.Skip(
                CheckCatalogue.OverflowGap,
                "Nobody was there to cause more than 512 events (--with-person)."
            );
            return;
        }

        foreach (var (task, isDone) in Tasks(bench.Identity.Abilities))
        {
            if (!hands.Ask(task))
            {
                continue;
            }

            var mark = bench.Host.Mark;
            var end = bench.Host.Now + hands.Patience;
            while (
                bench.Host.Now < end
                && !bench.Host.Since(mark).Any(c => c.Is(InstrumentLineKind.Event) && isDone(c.Said.Event))
            )
            {
                await bench.KeepHoldAsync().ConfigureAwait(false);
                if (task == HandTask.MoveScales && bench.IsAnythingKept)
                {
                    // While a scale moves, events are made to wait: no POS may come among them.
                    await bench
                        .SayAsync("RESEND", RawHost.Own, bench.Boot, Bench.Text(bench.Beat.OldestKept))
                        .ConfigureAwait(false);
                }

                await bench.Host.ListenAsync(0.6, bench.Cancel).ConfigureAwait(false);
            }

            // A scale may still be moving, and a second event follow the first.
            await bench.Host.ListenAsync(1.5, bench.Cancel).ConfigureAwait(false);
            var isTold = bench.Host.Since(mark).Any(c => c.Is(InstrumentLineKind.Event) && isDone(c.Said.Event));
            if (!isTold && hands.WasDone(task))
            {
                bench.DoneInVain.Add(task);
            }
        }

        await OverflowAsync(bench, hands).ConfigureAwait(false);
    }

    private static IEnumerable<(HandTask Task, Func<InstrumentEvent, bool> IsDone)> Tasks(InstrumentAbilities abilities)
    {
        bool Can(InstrumentAbilities any) => (abilities & any) != 0;
        yield return (HandTask.TurnDial, e => e.Kind == InstrumentEventKind.ModeChanged);
        yield return (HandTask.MoveScales, e => e.Kind == InstrumentEventKind.ScaleAtRest);
        if (Can(InstrumentAbilities.MarkKeys))
        {
            yield return (HandTask.MarkEdge, e => e.Kind == InstrumentEventKind.EdgeMarked);
        }

        yield return (HandTask.LightLamp, e => e is { Kind: InstrumentEventKind.LampSwitched, LampOn: false });
        if (Can(InstrumentAbilities.LightSensor | InstrumentAbilities.LightSwitch))
        {
            yield return (HandTask.ChangeRoom, e => e.Kind == InstrumentEventKind.RoomLight);
        }

        if (Can(InstrumentAbilities.Fixation))
        {
            yield return (HandTask.ChangeFixation, e => e.Kind == InstrumentEventKind.FixationChanged);
        }

        if (Can(InstrumentAbilities.ViewingLens))
        {
            yield return (HandTask.SwingLens, e => e.Kind == InstrumentEventKind.LensMoved);
        }
    }

    private static async Task OverflowAsync(Bench bench, IBenchHands hands)
    {
        if (!bench.Plan.MayDiscard)
        {
            bench.Report.Skip(
                CheckCatalogue.OverflowGap,
                "It would make the instrument lose events that it keeps; it is tried only with --discard."
            );
            return;
        }

        if (!hands.Ask(HandTask.FillMemory))
        {
            bench.Report.Skip(CheckCatalogue.OverflowGap, "Nobody caused more than 512 events.");
            return;
        }

        await bench.ListenHoldingAsync(hands.Patience.TotalSeconds).ConfigureAwait(false);
        var beat = await bench.NextBeatAsync().ConfigureAwait(false);
        if (beat is null || beat.Said.Beat.Last - beat.Said.Beat.OldestKept < 512)
        {
            bench.Report.Skip(CheckCatalogue.OverflowGap, "Fewer than 513 events came together.");
            return;
        }

        var mark = bench.Host.Mark;
        await bench
            .SayAsync("RESEND", RawHost.Own, bench.Boot, Bench.Text(beat.Said.Beat.OldestKept))
            .ConfigureAwait(false);
        await bench.QuietAsync().ConfigureAwait(false);
        var first = bench.Host.Since(mark).FirstOrDefault(c => c.Is(InstrumentLineKind.Event));
        Judge(bench, beat.Said.Beat, first);
    }

    private static void Judge(Bench bench, Heartbeat beat, Crossed? first)
    {
        if (
            first is not null
            && first.Said.Event.Kind != InstrumentEventKind.EventsLost
            && first.Said.Event.Sequence == beat.OldestKept
        )
        {
            bench.Report.Skip(
                CheckCatalogue.OverflowGap,
                Bench.Text(
                    $"It keeps {beat.Last - beat.OldestKept + 1} events and has lost none: its memory is larger."
                )
            );
            return;
        }

        var isGap =
            first?.Said.Event.Kind == InstrumentEventKind.EventsLost && first.Said.Event.FirstLost == beat.OldestKept;
        var kept = isGap ? beat.Last - first!.Said.Event.Sequence + 1 : 0;
        bench.Report.Judge(
            CheckCatalogue.OverflowGap,
            !isGap ? "What comes first is neither the oldest kept nor a GAP that begins there."
                : kept < 512 ? Bench.Text($"It keeps {kept} things only, the GAP among them.")
                : null,
            Bench.Text($"A GAP at the front, {kept} things kept."),
            first?.Text
        );
    }
}
