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
        Endured(bench);
    }

    private static void EachSecond(Bench bench, int quiet)
    {
        var beats = bench.Host.Since(quiet).Where(c => c.Is(InstrumentLineKind.Beat)).ToList();
        if (beats.Count < 4)
        {
            bench.Report.Fail(
                CheckCatalogue.BeatEachSecond,
                Bench.Text($"Only {beats.Count} came in the last 6 s or more.")
            );
            return;
        }

        foreach (var (before, after) in beats.Zip(beats.Skip(1)))
        {
            var (arrived, ticked) = (
                (after.At - before.At).TotalSeconds,
                (after.Said.Beat.Tick - before.Said.Beat.Tick).TotalSeconds
            );
            // A quarter of a second for events before it in the buffer, adapter and reader; the tick is of the making.
            if (arrived is < 0.7 or > 1.3 || ticked is < 0.85 or > 1.15)
            {
                bench.Report.Fail(
                    CheckCatalogue.BeatEachSecond,
                    Bench.Text($"It came {arrived:0.000} s after the one before, by its tick {ticked:0.000} s."),
                    after.Text
                );
                return;
            }
        }

        bench.Report.Pass(CheckCatalogue.BeatEachSecond, Bench.Text($"{beats.Count} in a row."));
    }

    private static void True(Bench bench)
    {
        long highest = 0;
        var isKnown = false;
        var hasBattery = (bench.Identity.Abilities & InstrumentAbilities.Battery) != 0;
        foreach (var line in bench.Host.Log.Where(c => c.IsGood))
        {
            if (line.Said.Kind == InstrumentLineKind.Event)
            {
                highest = Math.Max(highest, line.Said.Event.Sequence);
            }
            else if (line.Said.Kind == InstrumentLineKind.Identity)
            {
                // Only the identity says whether there is a battery; a heartbeat before it promises nothing.
                isKnown = true;
            }
            else if (line.Said.Kind == InstrumentLineKind.Beat)
            {
                var beat = line.Said.Beat;
                var against =
                    beat.Boot == bench.Identity.Boot && beat.Last < highest
                        ? Bench.Text($"Event {highest} came before it.")
                    : isKnown && hasBattery != beat.BatteryPercent is not null ? "Battery and ability B do not agree."
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
        var ticks = new SortedDictionary<long, Crossed>();
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
                ticks.TryAdd(line.Said.Event.Sequence, line);
            }
        }

        foreach (var (earlier, later) in ticks.Values.Zip(ticks.Values.Skip(1)))
        {
            if (later.Said.Event.Tick < earlier.Said.Event.Tick)
            {
                bench.Report.Fail(CheckCatalogue.TickForward, $"The event before it was {earlier.Text}", later.Text);
                return;
            }
        }

        bench.Report.Pass(CheckCatalogue.TickForward, Bench.Text($"Heartbeats, and {ticks.Count} events."));
    }

    private static void Rate(Bench bench)
    {
        var beats = bench
            .Host.Log.Where(c => c.Is(InstrumentLineKind.Beat) && c.Said.Beat.Boot == bench.Identity.Boot)
            .ToList();
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

    private static void Endured(Bench bench)
    {
        var good = bench.Host.Log.Where(c => c.IsGood).ToList();
        foreach (var (before, after) in good.Zip(good.Skip(1)))
        {
            if (after.At - before.At > TimeSpan.FromSeconds(3))
            {
                bench.Report.Fail(
                    CheckCatalogue.Endurance,
                    Bench.Text($"Silent for {(after.At - before.At).TotalSeconds:0.0} s before it."),
                    after.Text
                );
                return;
            }
        }

        if (good.Count > 0 && bench.Host.Now - good[^1].At > TimeSpan.FromSeconds(3))
        {
            bench.Report.Fail(CheckCatalogue.Endurance, "It fell silent at the end.", good[^1].Text);
            return;
        }

        var boots = good.Where(c => c.Said.Kind == InstrumentLineKind.Beat)
            .Select(c => c.Said.Beat.Boot)
            .Distinct()
            .Count();
        bench.Report.Judge(
            CheckCatalogue.Endurance,
            boots > 1 ? "It started anew in the run." : null,
            Bench.Text($"{bench.Host.Now.TotalSeconds:0} s, {good.Count} good lines.")
        );
    }
}
