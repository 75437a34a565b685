using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at the kinds of events: those that the abilities claim, and those that they do not.</summary>
internal static class KindJudge
{
    public static void Judge(Bench bench)
    {
        var events = bench.Host.Log.Where(c => c.Is(InstrumentLineKind.Event)).ToList();
        Readable(bench, events);
        Declared(bench, events);
        Seen(
            bench,
            CheckCatalogue.KindMode,
            HandTask.TurnDial,
            events,
            e => e.Kind == InstrumentEventKind.ModeChanged && e.Sequence > 1
        );
        Seen(
            bench,
            CheckCatalogue.KindRest,
            HandTask.MoveScales,
            events,
            e => e.Kind == InstrumentEventKind.ScaleAtRest
        );
        Seen(
            bench,
            CheckCatalogue.KindLamp,
            HandTask.LightLamp,
            events,
            e => e.Kind == InstrumentEventKind.LampSwitched
        );
        OutputJudge.Judge(bench, events);
        Claimed(
            bench,
            CheckCatalogue.KindEdge,
            HandTask.MarkEdge,
            InstrumentAbilities.MarkKeys,
            events,
            e => e.Kind == InstrumentEventKind.EdgeMarked
        );
        Claimed(
            bench,
            CheckCatalogue.KindRoom,
            HandTask.ChangeRoom,
            InstrumentAbilities.LightSensor | InstrumentAbilities.LightSwitch,
            events,
            e => e.Kind == InstrumentEventKind.RoomLight
        );
        GapJudge.Rooms(bench);
        Claimed(
            bench,
            CheckCatalogue.KindFix,
            HandTask.ChangeFixation,
            InstrumentAbilities.Fixation,
            events,
            e => e.Kind == InstrumentEventKind.FixationChanged
        );
        Claimed(
            bench,
            CheckCatalogue.KindLens,
            HandTask.SwingLens,
            InstrumentAbilities.ViewingLens,
            events,
            e => e.Kind == InstrumentEventKind.LensMoved
        );
    }

    private static void Readable(Bench bench, List<Crossed> events)
    {
        var bad = events.FirstOrDefault(c =>
            c.Said.Event.Kind is InstrumentEventKind.Unknown or InstrumentEventKind.Unreadable
            || c.Said.Event is { Kind: InstrumentEventKind.LampSwitched, LampOn: false, LampLevelPercent: > 0 }
            || (c.Said.Event.Kind == InstrumentEventKind.EventsLost && c.Said.Event.FirstLost > c.Said.Event.Sequence)
        );
        if (events.Count == 0)
        {
            bench.Report.Skip(CheckCatalogue.KindsReadable, "No event came.");
            return;
        }

        bench.Report.Judge(
            CheckCatalogue.KindsReadable,
            bad is null ? null : "A kind or a field that version 1 does not have.",
            Bench.Text($"{events.Count} event lines."),
            bad?.Text
        );
    }

    private static void Declared(Bench bench, List<Crossed> events)
    {
        var stray = events.FirstOrDefault(c =>
            Needed(c.Said.Event) is var needed && (bench.Identity.Abilities & needed) != needed
        );
        bench.Report.Judge(
            CheckCatalogue.KindsDeclared,
            stray is null ? null : "The identity does not claim the ability for it.",
            "Each event has its ability.",
            stray?.Text
        );
    }

    private static InstrumentAbilities Needed(in InstrumentEvent e) =>
        e.Kind switch
        {
            InstrumentEventKind.EdgeMarked => InstrumentAbilities.MarkKeys,
            InstrumentEventKind.RoomLight when e.Room == RoomLightLevel.Measured => InstrumentAbilities.LightSensor,
            InstrumentEventKind.RoomLight => InstrumentAbilities.LightSwitch,
            InstrumentEventKind.FixationChanged => InstrumentAbilities.Fixation,
            InstrumentEventKind.LensMoved => InstrumentAbilities.ViewingLens,
            InstrumentEventKind.LampOutput => InstrumentAbilities.LampMeter,
            _ => InstrumentAbilities.None,
        };

    private static void Claimed(
        Bench bench,
        Check check,
        HandTask task,
        InstrumentAbilities any,
        List<Crossed> events,
        Func<InstrumentEvent, bool> isIt
    )
    {
        if ((bench.Identity.Abilities & any) == 0)
        {
            bench.Report.Skip(check, "The instrument does not claim it.");
            return;
        }

        Seen(bench, check, task, events, isIt);
    }

    private static void Seen(
        Bench bench,
        Check check,
        HandTask task,
        List<Crossed> events,
        Func<InstrumentEvent, bool> isIt
    )
    {
        if (events.FirstOrDefault(c => isIt(c.Said.Event)) is { } seen)
        {
            bench.Report.Pass(check, $"For example {seen.Text}");
        }
        else if (bench.DoneInVain.Contains(task))
        {
            bench.Report.Fail(check, "It was done at the instrument, and no event told it.");
        }
        else
        {
            bench.Report.Skip(
                check,
                bench.Plan.Hands is null ? "Nobody was there to do it (--with-person)." : "It was not done."
            );
        }
    }
}
