using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Judging;
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

        foreach (var (task, isDone) in Tasks(bench))
        {
            if (!hands.Ask(task))
            {
                continue;
            }

            var mark = bench.Host.Mark;
            var end = bench.Host.Now + hands.Patience;
            while (bench.Host.Now < end && !isDone(Told(bench, mark)))
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
            if (isDone(Told(bench, mark)))
            {
                bench.Done.Add(task);
                hands.Thank(task);
            }
            else if (hands.WasDone(task))
            {
                bench.DoneInVain.Add(task);
            }
        }

        await OverflowAsync(bench, hands).ConfigureAwait(false);
    }

    private static List<InstrumentEvent> Told(Bench bench, int mark) =>
        [.. bench.Host.Since(mark).Where(c => c.Is(InstrumentLineKind.Event)).Select(c => c.Said.Event)];

    private static IEnumerable<(HandTask Task, Func<List<InstrumentEvent>, bool> IsDone)> Tasks(Bench bench)
    {
        bool Can(InstrumentAbilities any) => (bench.Identity.Abilities & any) != 0;
        Func<List<InstrumentEvent>, bool> Any(InstrumentEventKind kind) => told => told.Any(e => e.Kind == kind);
        yield return (HandTask.TurnDial, Any(InstrumentEventKind.ModeChanged));
        yield return (HandTask.MoveScales, _ => ScaleRange.IsReached(bench.Host.Log));
        if (Can(InstrumentAbilities.MarkKeys))
        {
            yield return (HandTask.MarkEdge, Any(InstrumentEventKind.EdgeMarked));
        }

        yield return (
            HandTask.LightLamp,
            told => told.Any(e => e is { Kind: InstrumentEventKind.LampSwitched, LampOn: false })
        );
        if (Can(InstrumentAbilities.LightSensor | InstrumentAbilities.LightSwitch))
        {
            yield return (HandTask.ChangeRoom, Any(InstrumentEventKind.RoomLight));
        }

        if (Can(InstrumentAbilities.Fixation))
        {
            yield return (HandTask.ChangeFixation, Any(InstrumentEventKind.FixationChanged));
        }

        if (Can(InstrumentAbilities.ViewingLens))
        {
            yield return (HandTask.SwingLens, Any(InstrumentEventKind.LensMoved));
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

        var before = bench.Beat.Last;
        await bench.ListenHoldingAsync(hands.Patience.TotalSeconds).ConfigureAwait(false);
        bench.Filling = (before, bench.Beat.Last);
        var beat = await bench.NextBeatAsync().ConfigureAwait(false);
        if (beat is null || beat.Said.Beat.Last - beat.Said.Beat.OldestKept < 512)
        {
            bench.Report.Skip(CheckCatalogue.OverflowGap, "Fewer than 513 events came together.");
            return;
        }

        await bench.TryAsync(FrontAsync).ConfigureAwait(false);
    }

    private static async Task FrontAsync(Bench bench)
    {
        var (mark, beat) = (bench.Host.Mark, bench.Beat);
        Crossed? front = null;
        for (var i = 0; i < 4 && front is null; i++)
        {
            // What is asked here is what stands at the front; that RESEND is obeyed at once is examined elsewhere.
            await bench.SayAsync("RESEND", RawHost.Own, bench.Boot, Bench.Text(beat.OldestKept)).ConfigureAwait(false);
            front = await bench
                .Host.UntilAsync(
                    c =>
                        c.Is(InstrumentLineKind.Event)
                        && (
                            c.Said.Event.Kind == InstrumentEventKind.EventsLost
                            || c.Said.Event.Sequence == beat.OldestKept
                        ),
                    mark,
                    1,
                    bench.Cancel
                )
                .ConfigureAwait(false);
        }

        await bench.QuietAsync().ConfigureAwait(false);
        Judge(bench, beat, front ?? bench.Host.Since(mark).FirstOrDefault(c => c.Is(InstrumentLineKind.Event)));
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
