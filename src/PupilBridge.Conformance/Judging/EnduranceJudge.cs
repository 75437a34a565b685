using PupilBridge.Conformance.Checks;
using PupilBridge.Conformance.Steps;
using PupilBridge.Instrument;

namespace PupilBridge.Conformance.Judging;

/// <summary>Looks at whether the instrument was there all the time, and was the same boot.</summary>
internal static class EnduranceJudge
{
    public static void Judge(Bench bench)
    {
        var good = bench.Host.Log.Where(c => c.IsGood).ToList();
        foreach (var (before, after) in good.Zip(good.Skip(1)))
        {
            if (after.At - before.At > TimeSpan.FromSeconds(3))
            {
                bench.Report.Fail(
                    CheckCatalogue.Endurance,
                    Bench.Text(
                        $"Silent for {(after.At - before.At).TotalSeconds:0.0} s before it.{Why(bench, before, after)}"
                    ),
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

    private static string Why(Bench bench, Crossed before, Crossed after)
    {
        var between = bench.Host.Log.SkipWhile(c => c != before).TakeWhile(c => c != after).ToList();
        var broken = between.Count(c => c.IsFromInstrument && !c.IsGood);
        return broken > 0 ? Bench.Text($" {broken} broken lines came meanwhile; see lines.whole.")
            : before.Boot != after.Boot ? " Then it started anew."
            : "";
    }
}
