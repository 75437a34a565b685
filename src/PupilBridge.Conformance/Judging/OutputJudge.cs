using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at what the light meters at the lamps tell: once for each lamp that was on for long enough.</summary>
internal static class OutputJudge
{
    private static readonly TimeSpan LongEnough = TimeSpan.FromMilliseconds(500);

    /// <summary>Judges the lamp readings of the run.</summary>
    /// <param name="bench">The run.</param>
    /// <param name="events">All its event lines, as they came.</param>
    public static void Judge(Bench bench, IReadOnlyList<Crossed> events)
    {
        if ((bench.Identity.Abilities & InstrumentAbilities.LampMeter) == 0)
        {
            bench.Report.Skip(CheckCatalogue.KindOutput, "The instrument does not claim it.");
            return;
        }

        var inOrder = events
            .DistinctBy(c => (c.Said.Event.Boot, c.Said.Event.Sequence))
            .OrderBy(c => c.Said.Event.Boot.Value)
            .ThenBy(c => c.Said.Event.Sequence)
            .ToList();
        var examined = 0;
        foreach (var eye in (Eye[])[Eye.Right, Eye.Left])
        {
            if (Against(inOrder, eye, ref examined) is { } found)
            {
                bench.Report.Fail(CheckCatalogue.KindOutput, found.Why, found.Line.Text);
                return;
            }
        }

        if (examined > 0)
        {
            bench.Report.Pass(CheckCatalogue.KindOutput, Bench.Text($"{examined} lamps that were on for 500 ms."));
        }
        else
        {
            bench.Report.Skip(CheckCatalogue.KindOutput, "No lamp was seen on for 500 ms.");
        }
    }

    private static (string Why, Crossed Line)? Against(List<Crossed> inOrder, Eye eye, ref int examined)
    {
        Crossed? on = null;
        var isOff = false;
        var (outputs, expected) = (0, 0L);
        foreach (var line in inOrder)
        {
            var e = line.Said.Event;
            if (e.Sequence != expected || e.Kind == InstrumentEventKind.EventsLost)
            {
                // Among what did not come may have been anything.
                (on, isOff) = (null, false);
            }

            expected = e.Sequence + 1;
            if (e.Eye != eye)
            {
                continue;
            }

            if (e.Kind == InstrumentEventKind.LampOutput)
            {
                if (isOff)
                {
                    return ("The lamp of that eye was off.", line);
                }

                outputs++;
            }
            else if (e is { Kind: InstrumentEventKind.LampSwitched, LampOn: true })
            {
                (on, isOff, outputs) = (line, false, 0);
            }
            else if (e.Kind == InstrumentEventKind.LampSwitched)
            {
                if (on is not null && e.Tick - on.Said.Event.Tick >= LongEnough)
                {
                    examined++;
                    if (outputs != 1)
                    {
                        return (Bench.Text($"{outputs} OUTPUT came while the lamp was on before it."), line);
                    }
                }

                (on, isOff) = (null, true);
            }
        }

        return null;
    }
}
