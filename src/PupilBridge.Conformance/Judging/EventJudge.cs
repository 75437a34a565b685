using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at all events of the run: their order, their bytes, their boot, the first.</summary>
internal static class EventJudge
{
    /// <summary>How long an event may be on its way: the suite falls silent for 13 s, and a whole memory takes 6 s to send.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(20);

    public static void Judge(Bench bench)
    {
        Boots(bench);
        var events = bench.Host.Log.Where(c => c.Is(InstrumentLineKind.Event)).ToList();
        if (events.Count == 0)
        {
            if (bench.IsAnythingKept)
            {
                bench.Report.Fail(CheckCatalogue.EventsOrder, "BEAT tells events as kept; none ever came.");
            }
            else
            {
                bench.Report.Skip(CheckCatalogue.EventsOrder, "No event came.");
            }

            bench.Report.Skip(CheckCatalogue.EventsSame, "No event came.");
            bench.Report.Skip(CheckCatalogue.EventsFirst, "No event came.");
            return;
        }

        Order(bench);
        Same(bench, events);
        var first = events.FirstOrDefault(c => c.Said.Event.Sequence == 1);
        if (first is null)
        {
            bench.Report.Skip(
                CheckCatalogue.EventsFirst,
                "The first event was forgotten before the run; switch the instrument off and on."
            );
            return;
        }

        var isRight = first.Said.Event is { Kind: InstrumentEventKind.ModeChanged, Cause: ModeCause.Dial };
        bench.Report.Judge(
            CheckCatalogue.EventsFirst,
            isRight ? null : "It is another event.",
            "MODE with DIAL.",
            first.Text
        );
    }

    private static void Boots(Bench bench)
    {
        var other = bench.Host.Log.FirstOrDefault(c =>
            (c.Is(InstrumentLineKind.Event) && c.Said.Event.Boot != bench.Identity.Boot)
            || (c.Is(InstrumentLineKind.Beat) && c.Said.Beat.Boot != bench.Identity.Boot)
            || (c.Is(InstrumentLineKind.Identity) && c.Said.Identity.Boot != bench.Identity.Boot)
        );
        bench.Report.Judge(
            CheckCatalogue.EventsBoot,
            other is null ? null : "Another boot: it started anew, or mixes them.",
            "One boot in all the run.",
            other?.Text
        );
    }

    private static void Order(Bench bench)
    {
        long? before = null;
        var acknowledged = bench.Identity.Acknowledged;
        var mayJump = false;
        var first = true;
        foreach (var line in bench.Host.Log)
        {
            if (!line.IsFromInstrument)
            {
                mayJump |= line.IsRequest;
                acknowledged = Math.Max(acknowledged, AckOf(bench, line));
            }
            else if (!line.IsGood)
            {
                // A line that broke on the way may have been an event.
                mayJump = true;
            }
            else if (line.Is(InstrumentLineKind.Event))
            {
                var e = line.Said.Event;
                var from = e.Kind == InstrumentEventKind.EventsLost ? e.FirstLost : e.Sequence;
                var expected = Math.Max(before + 1 ?? 0, acknowledged + 1);
                if (!first && !mayJump && from > expected)
                {
                    bench.Report.Fail(
                        CheckCatalogue.EventsOrder,
                        Bench.Text($"After {before} came {e.Sequence}."),
                        line.Text
                    );
                    return;
                }

                (before, mayJump, first) = (e.Sequence, false, false);
            }
        }

        Holes(bench);
    }

    /// <summary>What heartbeats say is kept must have come in the run, each number.</summary>
    private static void Holes(Bench bench)
    {
        // What happened shortly before the end may not have come yet.
        var patience = bench.Host.Now - TimeSpan.FromSeconds(4);
        var seen = new Dictionary<long, TimeSpan>();
        foreach (var c in bench.Host.Log.Where(c => c.Is(InstrumentLineKind.Event)))
        {
            var e = c.Said.Event;
            for (
                var n =
                    e.Kind == InstrumentEventKind.EventsLost ? Math.Max(e.FirstLost, e.Sequence - 100_000) : e.Sequence;
                n <= e.Sequence;
                n++
            )
            {
                seen.TryAdd(n, c.At);
            }
        }

        long looked = 0;
        foreach (
            var beat in bench.Host.Log.Where(c =>
                c.Is(InstrumentLineKind.Beat) && c.Said.Beat.Boot == bench.Identity.Boot
            )
        )
        {
            var told = beat.Said.Beat;
            var from = Math.Max(told.OldestKept, looked + 1);
            // A firmware that tells absurd numbers must not keep the judge busy for ever.
            for (var n = from; n <= told.Last && n < from + 100_000 && beat.At < patience; n++)
            {
                if (!seen.TryGetValue(n, out var came) || came > beat.At + Longest)
                {
                    bench.Report.Fail(
                        CheckCatalogue.EventsOrder,
                        Bench.Text($"BEAT tells event {n} as kept; it did not come."),
                        beat.Text
                    );
                    return;
                }
            }

            looked = Math.Max(looked, told.Last);
        }

        bench.Report.Pass(CheckCatalogue.EventsOrder, Bench.Text($"{seen.Count} numbers, without holes."));
    }

    private static long AckOf(Bench bench, Crossed line) =>
        line.Type == "ACK"
        && line.Fields is [_, var host, var boot, var number, ..]
        && host == RawHost.Own
        && boot == bench.Boot
        && long.TryParse(number, out var n)
        && n <= bench.Beat.Last
            ? n
            : 0;

    private static void Same(Bench bench, List<Crossed> events)
    {
        var texts = new Dictionary<long, string>();
        var again = 0;
        foreach (var line in events.Where(c => c.Said.Event.Kind != InstrumentEventKind.EventsLost))
        {
            if (!texts.TryAdd(line.Said.Event.Sequence, line.Text))
            {
                again++;
                if (texts[line.Said.Event.Sequence] != line.Text)
                {
                    bench.Report.Fail(
                        CheckCatalogue.EventsSame,
                        $"Before it was {texts[line.Said.Event.Sequence]}",
                        line.Text
                    );
                    return;
                }
            }
        }

        if (again == 0)
        {
            bench.Report.Skip(CheckCatalogue.EventsSame, "No event came twice.");
        }
        else
        {
            bench.Report.Pass(CheckCatalogue.EventsSame, Bench.Text($"{again} repetitions, byte for byte."));
        }
    }
}
