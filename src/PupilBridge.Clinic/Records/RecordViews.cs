using System.Globalization;
using PupilBridge.Clinic.Bench;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Profiles;

namespace PupilBridge.Clinic.Records;

/// <summary>One exam as a clinician reviews it.</summary>
internal static class RecordViews
{
    /// <summary>The exam as it is now.</summary>
    public static RecordView Of(IClinicHouse house, Exam exam)
    {
        // Asked for by the draft and by the findings, and looked up once.
        var criteria = new Lazy<CriteriaInput>(() => ExamCriteria.Of(house, exam));
        var draft = RecordDraft.Of(house, exam, () => criteria.Value);
        return new()
        {
            Exam = ExamViews.Of(house, exam, () => criteria.Value),
            Patient = PatientViews.Of(house, exam),
            Calibration = CalibrationViews.Of(exam.Calibration, exam.Opening.When.At),
            Legend = LegendOf(exam.Profile.Legend),
            Runs = [.. BlockRuns.Of(exam).Select(run => RunViews.Of(exam, run))],
            SwingWords = SwingText.Of(Swinging.Of(exam)),
            BeforeDrops = BeforeDropsWords.Of(house, exam),
            SignedVersions = [.. exam.SignedVersions.Select(SignedVersionViews.Of)],
            IsBeingAmended = exam.IsBeingAmended,
            DraftDigest = draft.Digest,
            CannotSign = draft.Obstacle is { } obstacle ? $"{obstacle.Reason} {obstacle.NextStep}" : null,
            Course = CourseViews.Of(exam),
        };
    }

    private static LegendView LegendOf(GradeLegend legend) =>
        new(legend.Version.ToString(CultureInfo.InvariantCulture), [.. legend.Grades]);
}
