using PupilBridge.Clinic.Judging;
using PupilBridge.Exams.Assembly.Facts;

namespace PupilBridge.Clinic.Desk;

/// <summary>Why a judgement does not count, in words for the examiner.</summary>
internal static class RefusalWords
{
    /// <summary>The words for a refused judgement.</summary>
    public static EntryObstacle Of(RefusedJudgement refused)
    {
        var (why, next) = Of(refused.Reason);
        return new EntryObstacle($"'{JudgementSyntax.Write(refused.Judgement)}' does not count: {why}.", next);
    }

    /// <summary>Why, and what to do.</summary>
    public static (string Why, string NextStep) Of(JudgementRefusal reason) =>
        reason switch
        {
            JudgementRefusal.BothPupilsNotMeasured => (
                "both pupils have not been measured yet",
                "Measure both pupils, then judge their shape."
            ),
            JudgementRefusal.NoCompleteStimulus => (
                "that eye has not had a complete stimulus yet",
                "Give the eye its stimulus with the dial on the direct block, then grade what you saw."
            ),
            JudgementRefusal.AlternationsNotComplete => (
                "the alternations of that dwell are not complete yet",
                "Let the swinging block run to its count, then say what you saw."
            ),
            JudgementRefusal.NotLookedNear => (
                "the patient has not looked near yet",
                "Turn the dial to the near block, or enter fixation near, then grade what you saw."
            ),
            JudgementRefusal.NoLightWentAway => (
                "no light has gone away yet",
                "Watch the pupils when a lamp goes off or the room turns dim, then say which was slower."
            ),
            JudgementRefusal.OtherStimulus => (
                "the stimulus named is not one of this exam that shows this",
                "Leave the stimulus out, or name one that 'pupilbridge exams show' lists for that eye."
            ),
            JudgementRefusal.ExamSetAside => (
                "the exam was set aside",
                "Open a new exam; the one set aside stays in the log."
            ),
            JudgementRefusal.ExamSigned => (
                "the exam was signed",
                "Have a clinician begin an amendment, then enter it again; what was signed stays as it is."
            ),
            _ => (reason.ToString(), "Look at the exam with 'pupilbridge exams show'."),
        };
}
