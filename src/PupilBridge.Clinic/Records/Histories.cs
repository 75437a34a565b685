using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Records;

/// <summary>A patient's visits beside each other.</summary>
internal static class Histories
{
    /// <summary>The visits, the latest first; exams that were set aside are none.</summary>
    /// <exception cref="EntryProblemException">The limit is none.</exception>
    public static PatientHistory Of(IClinicHouse house, PatientId patient, int limit) =>
        new(PatientViews.Of(house, patient), [.. Exams(house, patient, limit, null).Select(Of)]);

    /// <summary>A patient's exams that were not set aside, the latest first, each as it is now.</summary>
    /// <param name="house">The house.</param>
    /// <param name="patient">The patient.</param>
    /// <param name="limit">The most exams to look at.</param>
    /// <param name="before">Only exams that opened by then; null for all.</param>
    /// <exception cref="EntryProblemException">The limit is none.</exception>
    public static IEnumerable<Exam> Exams(IClinicHouse house, PatientId patient, int limit, UtcTime? before)
    {
        var request = new ExamListRequest
        {
            Patient = patient.Value,
            Limit = limit,
            OpenedBefore = before?.PlusMilliseconds(1).ToDateTimeOffset(),
        };
        return ExamListing
            .Of(house, request)
            .Exams.Select(summary => house.FindExam(new ExamId(summary.Exam)))
            .OfType<Exam>()
            .Where(exam => exam.Patient == patient && exam.Status != ExamStatus.SetAside);
    }

    private static VisitView Of(Exam exam) =>
        new(
            ExamSummaries.Of(exam),
            [.. SizeViews.Of(exam).Where(size => !size.IsSuperseded)],
            [.. JudgementViews.Of(exam).Where(judgement => judgement.Counts).Select(judgement => judgement.Judgement)]
        );
}
