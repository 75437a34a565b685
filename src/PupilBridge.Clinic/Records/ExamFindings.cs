using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Judgements;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Records;

/// <summary>What an exam can be searched for, in the words of <see cref="Views.ExamSearch.FindingWords"/>. None of it is a diagnosis.</summary>
internal static class ExamFindings
{
    /// <summary>The words.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="isBeforeDrops">Whether a clinician should see the patient before drops.</param>
    public static IReadOnlyList<string> Of(Exam exam, bool isBeforeDrops) =>
        [
            .. new (string Word, bool Holds)[]
            {
                ("anisocoria", IsUnequal(exam)),
                ("not-round", EyeFacts.Both.ToArray().Any(eye => IsNotRound(exam, eye))),
                ("poor-direct", ExamSteps.IsNearDue(exam)),
                ("swing-asymmetry", Swinging.Of(exam).State is SwingState.Seen or SwingState.Disagree),
                ("incomplete", IsIncomplete(exam)),
                ("gap", exam.Incidents.Any(i => i.Kind is IncidentKind.EventsLost or IncidentKind.EventUnplaced)),
                ("before-drops", isBeforeDrops),
            }
                .Where(finding => finding.Holds)
                .Select(finding => finding.Word),
        ];

    /// <summary>Whether a step stays without an answer though the eyes allow it.</summary>
    public static bool IsIncomplete(Exam exam) =>
        ExamSteps.Of(exam).Any(step => step.State is not (StepState.Done or StepState.NotPossible));

    private static bool IsUnequal(Exam exam) =>
        SizeEquality.Of(exam, RoomLight.Bright).Verdict == LimitVerdict.Above
        || SizeEquality.Of(exam, RoomLight.Dim).Verdict == LimitVerdict.Above;

    private static bool IsNotRound(Exam exam, Eye eye) =>
        CurrentJudgements.Shape(exam, eye)?.Judgement is ShapeJudgement { Shape: PupilShape.NotRound };
}
