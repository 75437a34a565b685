using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Records;

/// <summary>One exam as lists for review and search show it.</summary>
internal static class FoundExams
{
    /// <summary>The exam as it is now.</summary>
    public static FoundExam Of(IClinicHouse house, Exam exam)
    {
        var reasons = BeforeDropsWords.Of(house, exam);
        return new FoundExam
        {
            Summary = ExamSummaries.Of(exam),
            PatientName = exam.Patient is { } patient ? PatientViews.Of(house, patient).Name : null,
            Findings = [.. ExamFindings.Of(exam).Where(word => reasons.Count > 0 || word != ExamFindings.BeforeDrops)],
            BeforeDrops = reasons,
            IsLeftOpen = exam is { Status: ExamStatus.Open, Closing: not null },
        };
    }
}
