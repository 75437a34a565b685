using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Records;

/// <summary>Finds exams. A page looks at no more than a few exams beyond those it shows; it may be short though more follow.</summary>
internal static class ExamSearching
{
    /// <summary>One page.</summary>
    /// <exception cref="EntryProblemException">The search asks for something that is none.</exception>
    public static ExamPage Of(IClinicHouse house, ExamSearch search)
    {
        if (search.Finding is { } word && !ExamSearch.FindingWords.Contains(word))
        {
            throw new EntryProblemException(
                $"'{word}' is no finding; give one of: {string.Join(", ", ExamSearch.FindingWords)}."
            );
        }

        var list = ExamListing.Of(
            house,
            new ExamListRequest
            {
                Patient = search.Patient,
                Status = search.Status,
                OpenedFrom = search.OpenedFrom,
                OpenedBefore = search.OpenedBefore,
                After = search.After,
                Limit = search.Limit,
            }
        );
        var exams = list
            .Exams.Where(exam => search.Examiner is null || IsBy(exam, search.Examiner))
            .Select(summary => house.FindExam(new ExamId(summary.Exam)))
            .OfType<Exam>()
            .Select(exam => FoundExams.Of(house, exam))
            .Where(found => search.Finding is null || found.Findings.Contains(search.Finding));
        return new ExamPage([.. exams], list.Next);
    }

    private static bool IsBy(ExamSummary exam, string examiner) =>
        string.Equals(exam.Examiner, examiner.Trim(), StringComparison.OrdinalIgnoreCase);
}
