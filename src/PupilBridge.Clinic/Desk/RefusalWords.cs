using PupilBridge.Clinic.Judging;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Clinic.Desk;

/// <summary>Why a judgement does not count, in words for the examiner.</summary>
internal static class RefusalWords
{
    /// <summary>The words for a refused judgement.</summary>
    public static EntryObstacle Of(RefusedJudgement refused)
    {
        var (why, next) = Of(refused.Reason);
        return new EntryObstacle(ClinicText.Desk.Get("Refusal", JudgementSyntax.Write(refused.Judgement), why), next);
    }

    /// <summary>Why, and what to do.</summary>
    public static (string Why, string NextStep) Of(JudgementRefusal reason) =>
        (ClinicText.Desk.Of("Refusal", reason), ClinicText.Desk.Of("RefusalNext", reason));
}
