using System.Globalization;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Eyes;
using static PupilBridge.Simulator.Examiners.SpokenJudgement;

namespace PupilBridge.Browser.Records;

/// <summary>What a simulated examiner said, in the words of a record. Written here anew and not taken from the program.</summary>
public static class SpokenText
{
    /// <summary>The words, as a record shows them; null for "ready".</summary>
    /// <param name="said">What was said.</param>
    public static string? Of(SpokenJudgement said) =>
        said switch
        {
            ShapeSeen shape => $"shape {Word(shape.Eye)} {(shape.Shape == PupilShape.Round ? "round" : "not-round")}",
            LightGraded light when light.Lit == light.Observed => $"direct {Word(light.Lit)} {Number(light.Grade)}",
            LightGraded light => $"consensual lit {Word(light.Lit)} {Number(light.Grade)}",
            SwingSeen { Affected: { } worse } swing => $"swing {Dwell(swing.Block)} worse {Word(worse)}",
            SwingSeen swing => $"swing {Dwell(swing.Block)} alike",
            NearGraded near => $"near {Word(near.Eye)} {Number(near.Grade)}",
            _ => null,
        };

    private static string Word(Eye eye) => eye == Eye.Right ? "OD" : "OS";

    private static string Dwell(Block block) => block == Block.SwingShort ? "short" : "long";

    private static string Number(int grade) => grade.ToString(CultureInfo.InvariantCulture);
}
