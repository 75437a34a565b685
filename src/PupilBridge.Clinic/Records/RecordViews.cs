using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Notation;

namespace PupilBridge.Clinic.Records;

/// <summary>One exam as a clinician reviews it.</summary>
internal static class RecordViews
{
    /// <summary>The exam as it is now.</summary>
    public static RecordView Of(IClinicHouse house, Exam exam) =>
        new()
        {
            Exam = ExamViews.Of(house, exam),
            Patient = exam.Patient is { } patient ? PatientViews.Of(house, patient) : null,
            Legend = new LegendView("", []),
            Runs = [.. BlockRuns.Of(exam).Select(run => RunViews.Of(exam, run))],
            SwingWords = SwingText.Of(Swinging.Of(exam)),
            BeforeDrops = BeforeDropsWords.Of(house, exam),
            SignedVersions = [],
            IsBeingAmended = false,
            DraftDigest = null,
            CannotSign = "Signing comes with the next version of the program.",
            Course = CourseViews.Of(exam),
        };
}
