using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Notation;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Criteria.Rules;

/// <summary>Whether the patient looked far where a size or a light response needs it.</summary>
internal static class FixationRule
{
    public static Finding Of(Exam exam)
    {
        var tests = Tests(exam).ToArray();
        var near = tests.Where(t => t.Fixation == Fixation.Near).Select(t => t.What).Distinct().ToArray();
        var (verdict, reason) = (CriterionVerdict.NotMet, FindingReason.None);
        if (near.Length > 0)
            verdict = CriterionVerdict.Met;
        else if (tests.Any(t => !t.IsExamined))
            (verdict, reason) = (CriterionVerdict.NotExamined, FindingReason.InputMissing);
        else if (tests.Any(t => t.Fixation is null))
            (verdict, reason) = (CriterionVerdict.CannotTell, FindingReason.FixationUnknown);
        return FindingText.Complete(
            QualityCriteria.Fixation,
            new()
            {
                Criterion = QualityCriteria.Fixation.Id,
                Verdict = verdict,
                Reason = reason,
                Detail = string.Join(", ", near),
            }
        );
    }

    private static IEnumerable<(string What, bool IsExamined, Fixation? Fixation)> Tests(Exam exam)
    {
        foreach (var light in new[] { RoomLight.Bright, RoomLight.Dim })
        {
            foreach (var eye in Sides.Both.Where(eye => !ExamConditions.IsHidden(exam, eye)))
            {
                var size = PupilSizes.Of(exam, eye, light);
                yield return ($"sizes in {Words.Of(light)} light", size is not null, size?.Capture.Fixation);
            }
        }

        foreach (var eye in Sides.Both.Where(eye => !ExamConditions.IsHidden(exam, eye)))
        {
            var direct = CurrentJudgements.Direct(exam, eye);
            yield return ("direct response", direct is not null, direct?.Fixation);
        }

        foreach (var dwell in new[] { Block.SwingShort, Block.SwingLong })
        {
            var judged = CurrentJudgements.Swings(exam, dwell);
            yield return ("swinging test", !judged.IsEmpty, judged.LastOrDefault()?.Fixation);
        }
    }
}
