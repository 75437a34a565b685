using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>What heartbeats say is kept must have come in the run, each number.</summary>
internal static class HoleJudge
{
    /// <summary>How long an event may be on its way: the suite falls silent for 13 s, and a whole memory takes 6 s to send.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(20);

    /// <summary>What happened shortly before the end may not have come yet.</summary>
    private static readonly TimeSpan Shortly = TimeSpan.FromSeconds(4);

    /// <summary>A firmware that tells absurd numbers must not keep the judge busy for ever.</summary>
    private const long MostNumbers = 100_000;

    public static void Judge(Bench bench)
    {
        var seen = Seen(bench.Host.Log);
        var looked = new Dictionary<BootNumber, long>();
        foreach (var line in bench.Host.Log.Where(c => c.Is(InstrumentLineKind.Beat)))
        {
            var told = line.Said.Beat;
            var from = Math.Max(told.OldestKept, looked.GetValueOrDefault(told.Boot) + 1);
            var isDue = line.At < Patience(bench, told.Boot);
            for (var n = from; n <= told.Last && n < from + MostNumbers && isDue; n++)
            {
                if (!seen.TryGetValue((told.Boot, n), out var came) || came > line.At + Longest)
                {
                    bench.Report.Fail(
                        CheckCatalogue.EventsOrder,
                        Bench.Text($"BEAT tells event {n} as kept; it did not come."),
                        line.Text
                    );
                    return;
                }
            }

            looked[told.Boot] = Math.Max(looked.GetValueOrDefault(told.Boot), told.Last);
        }

        bench.Report.Pass(CheckCatalogue.EventsOrder, Bench.Text($"{seen.Count} numbers, without holes."));
    }

    // What was kept when a boot ended is lost with it.
    private static TimeSpan Patience(Bench bench, BootNumber boot)
    {
        var isOver = bench.Host.Log.Last(c => c.Boot is not null).Boot != boot;
        return isOver ? bench.Host.Log.Last(c => c.Boot == boot).At - Longest : bench.Host.Now - Shortly;
    }

    private static Dictionary<(BootNumber Boot, long Number), TimeSpan> Seen(IReadOnlyList<Crossed> log)
    {
        var seen = new Dictionary<(BootNumber, long), TimeSpan>();
        foreach (var c in log.Where(c => c.Is(InstrumentLineKind.Event)))
        {
            var e = c.Said.Event;
            var isGap = e.Kind == InstrumentEventKind.EventsLost;
            for (var n = isGap ? Math.Max(e.FirstLost, e.Sequence - MostNumbers) : e.Sequence; n <= e.Sequence; n++)
            {
                seen.TryAdd((e.Boot, n), c.At);
            }
        }

        return seen;
    }
}
