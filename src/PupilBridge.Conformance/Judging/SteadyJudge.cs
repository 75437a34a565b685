using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>
/// Looks at what a line does to a run, so that it is said plainly and charged to nothing else: what had to be tried again, and
/// what came late.
/// </summary>
internal static class SteadyJudge
{
    /// <summary>
    /// 50 ms of line time waiting (section 10), 10 ms for a line of 120 bytes at 115200 baud, 16 ms of an adapter's timer; the rest
    /// for this computer.
    /// </summary>
    private static readonly TimeSpan Latest = TimeSpan.FromMilliseconds(150);

    public static void Judge(Bench bench)
    {
        Steady(bench);
        Prompt(bench);
    }

    private static void Steady(Bench bench) =>
        bench.Report.Judge(
            CheckCatalogue.LineSteady,
            bench.Unsteady.Count == 0
                ? null
                : "Failed once and passed when tried again, since the line lost something or the instrument does not do it each time: "
                    + string.Join("; ", bench.Unsteady.Select(u => $"{u.Check.Key} ({u.Saw})")),
            "Nothing had to be tried again.",
            bench.Unsteady.FirstOrDefault()?.Line
        );

    private static void Prompt(Bench bench)
    {
        // Before the first answer may come what waited in a buffer while nobody had the port open (section 3).
        var (late, line) = bench
            .Host.Log.SkipWhile(c => !c.Is(InstrumentLineKind.Identity))
            .Where(c => c.Is(InstrumentLineKind.Beat))
            .GroupBy(c => c.Said.Beat.Boot)
            .Select(boot => Latecomer([.. boot]))
            .Append(bench.Slowest is { } slowest ? (slowest.Took, slowest.Line) : default)
            .MaxBy(found => found.Item1);
        if (line is null)
        {
            bench.Report.Skip(CheckCatalogue.LinePrompt, "Too few heartbeats and answers.");
            return;
        }

        var told = Bench.Text($"The latest came {late.TotalMilliseconds:0} ms after it could have come");
        bench.Report.Judge(
            CheckCatalogue.LinePrompt,
            late <= Latest
                ? null
                : $"{told}: the line stood still (adapter, converter, network), this computer was busy, or too much waits to leave.",
            $"{told}.",
            line.Text
        );
    }

    /// <summary>The heartbeat that came latest after its tick, the rate of the clock allowed for.</summary>
    private static (TimeSpan Late, Crossed? Line) Latecomer(List<Crossed> beats)
    {
        if (beats.Count < 5)
        {
            return default;
        }

        var residuals = ClockRate.Residuals([
            .. beats.Select(b => (b.At.TotalSeconds, b.Said.Beat.Tick.Milliseconds / 1000.0)),
        ]);
        var latest = residuals.Index().MinBy(r => r.Item);
        return (TimeSpan.FromSeconds(residuals.Max() - latest.Item), beats[latest.Index]);
    }
}
