using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Constructed.Scripts;

/// <content>
/// What happens on the bench. Commands about a run speak of the instrument's last one; <c>exam=LABEL</c> at the end aims elsewhere, and
/// <c>astray</c> before a command aims what is about a run at the last exam, and what is about an exam at the last run.
/// </content>
public sealed partial class ScriptCommands
{
    private bool isAstray;

    private bool BenchSays(string[] w)
    {
        var by = new By(default, new("TK"), new(clock), "0");
        switch (w[0])
        {
            case "discs":
                Put(
                    new DiscSetEntered
                    {
                        Id = NextId(),
                        Who = by.Who,
                        At = by.At,
                        ProgramVersion = by.Version,
                        Set = BenchEntriesOfScripts.Discs,
                    }
                );
                return true;
            case "lamps": // lamps 100,101 99,98
                Put(BenchEntriesOfScripts.Lamps(by with { Id = NextId() }, lane.Serial, w));
                return true;
            case "bench": // bench calibration R d2 L d2 … | bench calibration all 2 | bench live R bright L dim … | bench timing
                Put(BenchEntriesOfScripts.Begun(by with { Id = NextId() }, lane.Serial, w));
                return true;
            case "measure": // measure 30: all that the run still asks for, 30 µm too large and 5 µm to either side in turn
                MeasureAll(int.Parse(w[1], CultureInfo.InvariantCulture));
                return true;
            case "astray":
                isAstray = true;
                Do($"@{lane.Serial} {string.Join(' ', w[1..])}");
                isAstray = false;
                return true;
            default:
                return AboutRun(w);
        }
    }

    /// <summary>The bench run of an instrument that was begun last; null if there is none.</summary>
    public Exam? LastRunOf(Lane of)
    {
        FoldOn();
        return runs.Values.LastOrDefault(run => run.Serial == of.Serial);
    }

    private bool AboutRun(string[] w)
    {
        if (w[0] is not ("reading" or "finish" or "giveup" or "issue" or "adopt"))
            return false;
        var words = w[^1].StartsWith("exam=", StringComparison.Ordinal) ? w[..^1] : w;
        var run = LastRunOf(lane);
        var target =
            words.Length < w.Length ? ExamId.OpenedBy(labels[w[^1][5..]].Sequence)
            : isAstray ? LastExamOf(lane)
            : run?.Id;
        var aimed = target ?? throw new ArgumentException($"{lane.Serial} has nothing that '{w[0]}' could be about");
        var by = new By(NextId(), new("TK"), new(clock), "0");
        Put(BenchEntriesOfScripts.About(by, aimed, run?.Id == aimed ? run : null, words)!);
        return true;
    }

    private void MeasureAll(int tooLarge)
    {
        var run = LastRunOf(lane);
        if (run is not { TakesEvents: true, Bench.DiscSet: { } set })
            return;
        var serial = lane.Serial;
        var how = run.Instrument?.Abilities.HasFlag(InstrumentAbilities.MarkKeys) == true ? "pair" : "slide";
        var number = 0;
        foreach (var step in RunProgress.Of(run).ToCome)
        {
            var off = tooLarge + (number++ / 2 % 2 == 0 ? 5 : -5);
            var disc = set.Find(step.Disc ?? "") ?? throw new ArgumentException("the plan asks for no disc");
            var eye = step.Eye == Eye.Right ? "R" : "L";
            Do($"@{serial} {how} {eye} {(int)(disc.DiameterMillimetres * 1000) + off}");
        }
    }
}
