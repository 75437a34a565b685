using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at events that the instrument lost, and at what floods its memory.</summary>
internal static class GapJudge
{
    private const int RoomsInASecond = 10;

    /// <summary>Judges a gap that nobody asked for: what it tells must be true, and enough must be kept.</summary>
    /// <param name="bench">The run.</param>
    public static void Unasked(Bench bench)
    {
        var gap = bench.Host.Log.LastOrDefault(c =>
            c.Is(InstrumentLineKind.Event) && c.Said.Event.Kind == InstrumentEventKind.EventsLost
        );
        var beat = bench.Host.Log.LastOrDefault(c => c.Is(InstrumentLineKind.Beat))?.Said.Beat;
        if (gap is null || beat is null || beat.Value.Boot != gap.Said.Event.Boot)
        {
            return;
        }

        var lost = gap.Said.Event;
        var kept = beat.Value.Last - lost.Sequence + 1;
        bench.Report.Judge(
            CheckCatalogue.OverflowGap,
            kept >= 512 ? null : Bench.Text($"It lost events by itself and keeps {kept} things only."),
            Bench.Text(
                $"By itself it lost events {lost.FirstLost} to {lost.Sequence}, told it by a GAP, and keeps {kept}."
            ),
            gap.Text
        );
    }

    /// <summary>A sensor or switch that chatters pushes everything else out of the memory.</summary>
    public static void Rooms(Bench bench)
    {
        var rooms = bench
            .Host.Log.Where(c =>
                c.Is(InstrumentLineKind.Event)
                && c.Said.Event.Kind == InstrumentEventKind.RoomLight
                && !(
                    bench.Filling is { } filled
                    && c.Said.Event.Sequence > filled.After
                    && c.Said.Event.Sequence <= filled.To
                )
            )
            .DistinctBy(c => (c.Said.Event.Boot, c.Said.Event.Sequence))
            .OrderBy(c => c.Said.Event.Sequence)
            .GroupBy(c => c.Said.Event.Boot)
            .ToList();
        if (rooms.Count == 0)
        {
            bench.Report.Skip(CheckCatalogue.RoomRate, "No ROOM came.");
            return;
        }

        foreach (var boot in rooms.Select(b => b.ToList()))
        {
            for (var i = 0; i + RoomsInASecond < boot.Count; i++)
            {
                var span = boot[i + RoomsInASecond].Said.Event.Tick - boot[i].Said.Event.Tick;
                if (span < TimeSpan.FromSeconds(1))
                {
                    bench.Report.Fail(
                        CheckCatalogue.RoomRate,
                        Bench.Text($"{RoomsInASecond + 1} came within {span.TotalMilliseconds:0} ms."),
                        boot[i + RoomsInASecond].Text
                    );
                    return;
                }
            }
        }

        bench.Report.Pass(CheckCatalogue.RoomRate, Bench.Text($"{rooms.Sum(b => b.Count())} ROOM."));
    }
}
