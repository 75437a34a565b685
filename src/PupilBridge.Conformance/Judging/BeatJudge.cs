using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at the heartbeats: how often, what they say, and the clock behind them.</summary>
internal static class BeatJudge
{
    /// <summary>Judges the heartbeats of the run.</summary>
    /// <param name="bench">The run.</param>
    /// <param name="quiet">From where on in the log nothing was asked that brings an extra one.</param>
    public static void Judge(Bench bench, int quiet)
    {
        EachSecond(bench, quiet);
        True(bench);
        Forward(bench);
        Rate(bench);
    }

    private static void EachSecond(Bench bench, int quiet)
    {
        var lines = bench.Host.Since(quiet).ToList();
        var beats = lines.Where(c => c.Is(InstrumentLineKind.Beat)).ToList();
        if (beats.Count < 4)
        {
            bench.Report.Fail(
                CheckCatalogue.BeatEachSecond,
                Bench.Text($"Only {beats.Count} came in the last 6 s or more.")
            );
            return;
        }

        Crossed? before = null;
        foreach (var line in lines)
        {
            if (!line.Is(InstrumentLineKind.Beat))
            {
                // A line that broke may have been one; after an identity comes one more.
                before = line.IsGood && !line.Is(InstrumentLineKind.Identity) ? before : null;
                continue;
            }

            // Over the border of boots there is nothing to compare. The tick is of the making; what came late is line.prompt's.
            var ticked =
                before?.Said.Beat.Boot == line.Said.Beat.Boot
                    ? (line.Said.Beat.Tick - before.Said.Beat.Tick).TotalSeconds
                    : 1;
            if (ticked is < 0.85 or > 1.15)
            {
                bench.Report.Fail(
                    CheckCatalogue.BeatEachSecond,
                    Bench.Text(
                        $"It came {(line.At - before!.At).TotalSeconds:0.000} s after the one before, by its tick {ticked:0.000} s."
                    ),
                    line.Text
                );
                return;
            }

            before = line;
        }

        bench.Report.Pass(CheckCatalogue.BeatEachSecond, Bench.Text($"{beats.Count} in a row."));
    }

    private static void True(Bench bench)
    {
        var highest = new Dictionary<BootNumber, long>();
        var hasBattery = (bench.Identity.Abilities & InstrumentAbilities.Battery) != 0;
        foreach (var line in bench.Host.Log.Where(c => c.IsGood))
        {
            if (line.Said.Kind == InstrumentLineKind.Event)
            {
                var e = line.Said.Event;
                highest[e.Boot] = Math.Max(highest.GetValueOrDefault(e.Boot), e.Sequence);
            }
            else if (line.Said.Kind == InstrumentLineKind.Beat)
            {
                var beat = line.Said.Beat;
                var last = highest.GetValueOrDefault(beat.Boot);
                var against =
                    beat.Last < last ? Bench.Text($"Event {last} came before it.")
                    : hasBattery != beat.BatteryPercent is not null ? "Battery and ability B do not agree."
                    : null;
                if (against is not null)
                {
                    bench.Report.Fail(CheckCatalogue.BeatTrue, against, line.Text);
                    return;
                }
            }
        }

        bench.Report.Pass(
            CheckCatalogue.BeatTrue,
            hasBattery ? "Last event and battery agree." : "Last event agrees; no battery."
        );
    }

    private static void Forward(Bench bench)
    {
        var ticks = new SortedDictionary<(int Boot, long Sequence), Crossed>();
        var boots = new List<BootNumber>();
        Crossed? before = null;
        foreach (var line in bench.Host.Log.Where(c => c.IsGood))
        {
            if (line.Said.Kind == InstrumentLineKind.Beat)
            {
                if (
                    before is not null
                    && line.Said.Beat.Boot == before.Said.Beat.Boot
                    && line.Said.Beat.Tick < before.Said.Beat.Tick
                )
                {
                    bench.Report.Fail(CheckCatalogue.TickForward, $"The BEAT before it was {before.Text}", line.Text);
                    return;
                }

                before = line;
            }
            else if (line.Said.Kind == InstrumentLineKind.Event)
            {
                if (!boots.Contains(line.Said.Event.Boot))
                {
                    boots.Add(line.Said.Event.Boot);
                }

                ticks.TryAdd((boots.IndexOf(line.Said.Event.Boot), line.Said.Event.Sequence), line);
            }
        }

        foreach (var (earlier, later) in ticks.Values.Zip(ticks.Values.Skip(1)))
        {
            if (later.Said.Event.Boot == earlier.Said.Event.Boot && later.Said.Event.Tick < earlier.Said.Event.Tick)
            {
                bench.Report.Fail(CheckCatalogue.TickForward, $"The event before it was {earlier.Text}", later.Text);
                return;
            }
        }

        bench.Report.Pass(CheckCatalogue.TickForward, Bench.Text($"Heartbeats, and {ticks.Count} events."));
    }

    private static void Rate(Bench bench)
    {
        var beats =
            bench
                .Host.Log.Where(c => c.Is(InstrumentLineKind.Beat))
                .GroupBy(c => c.Said.Beat.Boot)
                .MaxBy(boot => boot.Count())
                ?.ToList()
            ?? [];
        if (beats.Count < 5)
        {
            bench.Report.Skip(CheckCatalogue.TickRate, "Fewer than five heartbeats.");
            return;
        }

        var (millionths, unsure) = ClockRate.Of([
            .. beats.Select(b => (b.At.TotalSeconds, b.Said.Beat.Tick.Milliseconds / 1000.0)),
        ]);
        var found = Bench.Text($"{millionths:+0;-0;0} ppm ± {unsure:0} ppm against this computer's clock");
        if (Math.Abs(millionths) - unsure > 500)
        {
            bench.Report.Fail(CheckCatalogue.TickRate, found + ".", beats[^1].Text);
        }
        else if (Math.Abs(millionths) + unsure <= 500)
        {
            bench.Report.Pass(CheckCatalogue.TickRate, found + ".");
        }
        else
        {
            bench.Report.Skip(
                CheckCatalogue.TickRate,
                found + ": the run was too short to tell; give it longer with --endurance."
            );
        }
    }
}
