using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Merging;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Desk;

/// <summary>
/// Lists exams from the exam log. The log is written at the end of each step, so that an exam may stand there as it was a moment ago,
/// or not yet; such exams are taken from the journal's own state and put in their place. Whoever entered something finds it.
/// </summary>
internal static class ExamListing
{
    /// <summary>One page.</summary>
    /// <exception cref="EntryProblemException">The request asks for something that is none.</exception>
    public static ExamList Of(IClinicHouse house, ExamListRequest request)
    {
        var numbers = PersonBehind.Numbers(house, request.Patient);
        var ahead = house.ExamsAheadOfLog();
        var page = ReadPage(house, request, numbers);
        var exams = page
            .Items.Where(stored => !ahead.Contains(ExamDocuments.IdOf(stored)))
            .Select(ExamSummaries.Of)
            .Concat(
                ExamsOfPage
                    .Ahead(house, ahead, request.After, page.Next)
                    .Where(exam => Fits(exam, request, numbers))
                    .Select(ExamSummaries.Of)
            )
            .OrderByDescending(PlaceOf)
            .ToList();
        return exams.Count <= request.Limit
            ? new ExamList(exams, page.Next)
            : new ExamList(exams[..request.Limit], PlaceOf(exams[request.Limit - 1]).ToString());
    }

    private static ExamPlace PlaceOf(ExamSummary exam) =>
        ExamPlace.Of(exam.OpenedAt, ExamDocuments.IdOf(new ExamId(exam.Exam)));

    private static Page<StoredExam> ReadPage(IClinicHouse house, ExamListRequest request, IReadOnlyList<string> numbers)
    {
        try
        {
            return house.ReadLog(log =>
                log.ListExams(
                    new ExamQuery
                    {
                        PatientIds = [.. numbers],
                        Status = request.Status,
                        OpenedFrom = request.OpenedFrom,
                        OpenedBefore = request.OpenedBefore,
                        After = request.After,
                        Limit = request.Limit,
                    }
                )
            );
        }
        catch (ArgumentException problem)
        {
            throw new EntryProblemException(problem.Message, problem);
        }
    }

    private static bool Fits(Exam exam, ExamListRequest request, IReadOnlyList<string> numbers)
    {
        var at = Shown.Time(exam.Opening.When.At);
        return (numbers.Count == 0 || (exam.Patient is { } patient && numbers.Contains(patient.Value)))
            && (request.Status is null || ExamDocuments.WordOf(exam.Status) == request.Status)
            && (request.OpenedFrom is null || at >= request.OpenedFrom)
            && (request.OpenedBefore is null || at < request.OpenedBefore);
    }
}
