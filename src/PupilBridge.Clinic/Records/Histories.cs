using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Findings;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Records;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Records;

/// <summary>A patient's visits beside each other.</summary>
internal static class Histories
{
    /// <summary>The visits, the latest first; exams that were set aside are none.</summary>
    /// <exception cref="EntryProblemException">The limit is none.</exception>
    public static PatientHistory Of(IClinicHouse house, PatientId patient, int limit)
    {
        Exam[] exams = [.. Exams(house, patient, limit, null)];
        IReadOnlyList<RecordFinding>[] findings =
        [
            .. exams.Select((exam, n) => Findings(house, exam, exams.Skip(n + 1))),
        ];
        return new(
            PatientViews.Of(house, patient) with
            {
                Erasure = exams.Select(ErasureViews.Of).FirstOrDefault(erasure => erasure is not null),
            },
            [.. exams.Select((exam, n) => Of(exam, findings[n], n + 1 < exams.Length ? findings[n + 1] : []))]
        )
        {
            Mergings = PatientViews.Mergings(house, patient),
        };
    }

    /// <summary>The exams of the person behind a number that were not set aside, the latest first, each as it is now.</summary>
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
        var numbers = house.Book.Mergings.NumbersOf(patient);
        return ExamListing
            .Of(house, request)
            .Exams.Select(summary => house.FindExam(new ExamId(summary.Exam)))
            .OfType<Exam>()
            .Where(exam =>
                exam.Patient is { } number && numbers.Contains(number) && exam.Status != ExamStatus.SetAside
            );
    }

    /// <summary>
    /// Of a signed visit the findings that were signed; of any other, and of one signed before criteria were part of a record, those
    /// that follow from it now.
    /// </summary>
    private static IReadOnlyList<RecordFinding> Findings(IClinicHouse house, Exam exam, IEnumerable<Exam> earlier) =>
        SignedFindings.Of(exam) ?? SignedRecords.Findings(ExamCriteria.Of(house, exam, earlier));

    private static VisitView Of(Exam exam, IReadOnlyList<RecordFinding> now, IReadOnlyList<RecordFinding> before)
    {
        SizeView[] sizes = [.. SizeViews.Of(exam).Where(size => !size.IsSuperseded)];
        return new(
            ExamSummaries.Of(exam),
            sizes,
            [.. JudgementViews.Of(exam).Where(judgement => judgement.Counts).Select(judgement => judgement.Judgement)]
        )
        {
            Differences = [.. VisitChanges.Differences(sizes, now)],
            Changes = VisitChanges.Of(now, before),
        };
    }
}
