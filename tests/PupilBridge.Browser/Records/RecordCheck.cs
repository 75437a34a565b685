using System.Text.Json;
using PupilBridge.Instrument;
using PupilBridge.Simulator.Examiners;

namespace PupilBridge.Browser.Records;

/// <summary>Holds an exam, as the program shows it, against what is true of the simulated one. Every difference is a sentence.</summary>
public static class RecordCheck
{
    private const double BrightLux = 50;

    /// <summary>Compares sizes, judgements and patient.</summary>
    /// <param name="shown">The exam as <c>exams show --json</c> gives it.</param>
    /// <param name="exam">The simulated exam.</param>
    /// <param name="patient">Whose it must be.</param>
    /// <param name="entered">What the examiner entered.</param>
    /// <returns>The differences; empty if the record is right.</returns>
    public static IReadOnlyList<string> Compare(
        JsonElement shown,
        SimulatedExam exam,
        string? patient,
        IReadOnlyList<SpokenJudgement> entered
    )
    {
        ArgumentNullException.ThrowIfNull(exam);
        var whose = shown.GetProperty("summary").GetProperty("patient").GetString();
        List<string> wrong =
            whose == patient ? [] : [$"the exam is {whose ?? "nobody"}'s and not {patient ?? "nobody"}'s"];
        wrong.AddRange(Judgements(shown, entered));
        wrong.AddRange(Sizes(shown, exam));
        return wrong;
    }

    private static IEnumerable<string> Judgements(JsonElement shown, IReadOnlyList<SpokenJudgement> entered)
    {
        var recorded = Counting(shown, "judgements").Select(j => j.GetProperty("judgement").GetString()!).ToArray();
        var wanted = entered.Select(SpokenText.Of).OfType<string>().ToArray();
        return wanted
            .Except(recorded)
            .Select(judgement => $"'{judgement}' was judged and is not in the record")
            .Concat(recorded.Except(wanted).Select(judgement => $"'{judgement}' is in the record and was not judged"))
            .Concat(recorded.Length == recorded.Distinct().Count() ? [] : [$"doubled: {string.Join(", ", recorded)}"]);
    }

    // The latest setting of each eye and light counts. A hand sets whole micrometres, the scale reads them in its steps.
    private static IEnumerable<string> Sizes(JsonElement shown, SimulatedExam exam)
    {
        var recorded = shown
            .GetProperty("sizes")
            .EnumerateArray()
            .Where(size => !size.GetProperty("isSuperseded").GetBoolean())
            .ToDictionary(size => (size.GetProperty("eye").GetString()!, size.GetProperty("light").GetString()));
        foreach (var truth in exam.Settings.GroupBy(s => (s.Eye, s.RoomLux > BrightLux)).Select(g => g.Last()))
        {
            var key = (truth.Eye == Eye.Right ? "OD" : "OS", (string?)(truth.RoomLux > BrightLux ? "bright" : "dim"));
            if (!recorded.Remove(key, out var size))
                yield return $"{key} was measured and is not in the record";
            else if (
                Math.Abs(size.GetProperty("millimetres").GetDouble() - truth.SetMillimetres) > Step(exam, truth.Eye)
            )
                yield return $"{key} is {size.GetProperty("millimetres")} mm in the record and was set to {truth.SetMillimetres:F3} mm";
        }

        foreach (var key in recorded.Keys)
            yield return $"{key} is in the record and was not measured";
    }

    private static double Step(SimulatedExam exam, Eye eye) =>
        (exam.Instrument.Model.Scales[eye].Resolution.Value / 1000.0) + 0.002;

    private static IEnumerable<JsonElement> Counting(JsonElement shown, string list) =>
        shown.GetProperty(list).EnumerateArray().Where(item => item.GetProperty("counts").GetBoolean());
}
