using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at all events of the run: their order, their bytes, their boot, the first.</summary>
internal static class EventJudge
{
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
        var first = bench.Host.Log.First(c => c.Is(InstrumentLineKind.Identity)).Said.Identity.Boot;
        var other = bench.Host.Log.FirstOrDefault(c => c.Boot is { } boot && boot != first);
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
        BootNumber? boot = null;
        var acknowledged = 0L;
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
            else if (line.Is(InstrumentLineKind.Identity) && line.Said.Identity.Boot != boot)
            {
                (boot, before, first) = (line.Said.Identity.Boot, null, true);
                acknowledged = line.Said.Identity.Acknowledged;
            }
            else if (line.Is(InstrumentLineKind.Event) && line.Said.Event.Boot == boot)
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

        HoleJudge.Judge(bench);
    }

    private static long AckOf(Bench bench, Crossed line) =>
        line.Type == "ACK"
        && line.Fields is [_, var host, _, var number, ..]
        && host == RawHost.Own
        && long.TryParse(number, out var n)
        && n <= bench.Beat.Last
            ? n
            : 0;

    private static void Same(Bench bench, List<Crossed> events)
    {
        var texts = new Dictionary<(BootNumber, long), string>();
        var again = 0;
        foreach (var line in events.Where(c => c.Said.Event.Kind != InstrumentEventKind.EventsLost))
        {
            var key = (line.Said.Event.Boot, line.Said.Event.Sequence);
            if (!texts.TryAdd(key, line.Text))
            {
                again++;
                if (texts[key] != line.Text)
                {
                    bench.Report.Fail(CheckCatalogue.EventsSame, $"Before it was {texts[key]}", line.Text);
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
