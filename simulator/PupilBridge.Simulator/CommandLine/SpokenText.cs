using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Lines;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>Prints what the simulated examiner says.</summary>
internal sealed class SpokenText(TextWriter output) : IExaminerVoice
{
    public ValueTask SayAsync(SpokenJudgement judgement, CancellationToken cancel)
    {
        output.WriteLine("examiner: " + Text(judgement));
        return ValueTask.CompletedTask;
    }

    public static string Text(SpokenJudgement judgement) =>
        judgement switch
        {
            SpokenJudgement.ShapeSeen s => $"{Name(s.Eye)} pupil {s.Shape.ToString().ToLowerInvariant()}",
            SpokenJudgement.LightGraded g when g.Lit == g.Observed => $"{Name(g.Lit)} direct {g.Grade}",
            SpokenJudgement.LightGraded g => $"{Name(g.Observed)} consensual (light {Name(g.Lit)}) {g.Grade}",
            SpokenJudgement.SwingSeen { Affected: null } s => $"{Name(s.Block)}: no difference seen",
            SpokenJudgement.SwingSeen { Block: Block.SwingShort } s =>
                $"{Name(s.Block)}: {Name(s.Affected!.Value)} narrows less",
            SpokenJudgement.SwingSeen s => $"{Name(s.Block)}: {Name(s.Affected!.Value)} lets go",
            SpokenJudgement.NearGraded n => $"{Name(n.Eye)} near {n.Grade}",
            _ => "ready for review",
        };

    private static string Name(Eye eye) => eye == Eye.Right ? "right" : "left";

    private static string Name(Block block) =>
        block == Block.SwingShort ? "swinging, short dwell" : "swinging, long dwell";
}
