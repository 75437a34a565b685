using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Lanes;

/// <summary>What a lane says of the exam before: an exam that something else ended must not be forgotten.</summary>
internal static class LaneBefores
{
    /// <summary>The exam before.</summary>
    /// <param name="ended">The exam that ended last.</param>
    /// <param name="beforeDrops">Finds why a clinician should see a patient before drops.</param>
    /// <returns>Null where nobody needs to be told of it.</returns>
    public static LaneExamBefore? Of(Exam? ended, Func<Exam, IReadOnlyList<string>> beforeDrops)
    {
        if (ended is null || ended.Status is not (ExamStatus.Open or ExamStatus.ReadyForReview))
        {
            return null;
        }

        var steps = ExamSteps.Of(ended);
        var missing = MissingWords.Of(ended, steps);
        var drops = beforeDrops(ended);
        return ended.Status == ExamStatus.ReadyForReview && missing.Count == 0 && drops.Count == 0
            ? null
            : new LaneExamBefore(
                ended.Id.Value,
                ended.Patient?.Value,
                ExamDocuments.WordOf(ended.Status),
                Words(ended, missing, MissingWords.Accepted(steps)),
                drops
            );
    }

    private static string Words(Exam ended, IReadOnlyList<string> missing, IReadOnlyList<string> accepted)
    {
        var how = ended.Closing is { } closing ? ClinicText.Lane.Of("Ended", closing.Reason) : "";
        var what = (ended.Status, missing.Count) switch
        {
            // What was accepted as not examined is no completeness.
            (not ExamStatus.Open, 0) when accepted.Count > 0 => ClinicText.Lane.Get(
                "Before.Accepted",
                string.Join("; ", accepted)
            ),
            (ExamStatus.Open, 0) => ClinicText.Lane.Get("Before.CompleteNotReady"),
            (ExamStatus.Open, _) => ClinicText.Lane.Get("Before.LacksNotReady", string.Join("; ", missing)),
            (_, 0) => ClinicText.Lane.Get("Before.Complete"),
            _ => ClinicText.Lane.Get("Before.Lacks", string.Join("; ", missing)),
        };
        return $"{how} {what}".Trim();
    }
}
