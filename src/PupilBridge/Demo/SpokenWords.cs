using System.Globalization;
using PupilBridge.Clinic.Words;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;
using PupilBridge.Simulator.Eyes;

namespace PupilBridge.Demo;

/// <summary>What the simulated examiner says, as an examiner would type it at <c>pupilbridge grade</c>.</summary>
internal static class SpokenWords
{
    /// <summary>The typed line of a spoken judgement.</summary>
    /// <param name="spoken">What was said.</param>
    /// <returns>The line; null for "ready", which is no judgement.</returns>
    public static string? Typed(SpokenJudgement spoken) =>
        spoken switch
        {
            SpokenJudgement.ShapeSeen shape =>
                $"shape {Word(shape.Eye)} {(shape.Shape == PupilShape.Round ? "round" : "not-round")}",
            SpokenJudgement.LightGraded light when light.Lit == light.Observed =>
                $"direct {Word(light.Lit)} {Number(light.Grade)}",
            SpokenJudgement.LightGraded light => $"consensual lit {Word(light.Lit)} {Number(light.Grade)}",
            SpokenJudgement.SwingSeen { Affected: { } worse } swing =>
                $"swing {ClinicWords.Dwells[swing.Block]} worse {Word(worse)}",
            SpokenJudgement.SwingSeen swing => $"swing {ClinicWords.Dwells[swing.Block]} alike",
            SpokenJudgement.NearGraded near => $"near {Word(near.Eye)} {Number(near.Grade)}",
            _ => null,
        };

    private static string Word(Eye eye) => ClinicWords.Eyes[eye];

    private static string Number(int grade) => grade.ToString(CultureInfo.InvariantCulture);
}
