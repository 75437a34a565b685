using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Merging;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Records;

/// <summary>
/// Finds exams by the exam log's indexes, a page at a time. The log may be a moment behind; exams of which it may be are taken from the
/// journal's own state and put in their place. A page may hold fewer exams than asked for though more follow.
/// </summary>
internal static class ExamSearching
{
    /// <summary>One page, the latest opened first.</summary>
    /// <exception cref="EntryProblemException">The search asks for something that is none.</exception>
    public static ExamPage Of(IClinicHouse house, ExamSearch search)
    {
        var (found, next) = Find(house, search);
        var shown = found
            .Select(exam => FoundExams.Of(house, exam))
            .Where(exam =>
                search.Finding is null || IsCriterion(search.Finding) || exam.Findings.Contains(search.Finding)
            );
        return new ExamPage([.. shown], next);
    }

    /// <summary>The exams of one page whole, and where the next one begins.</summary>
    /// <exception cref="EntryProblemException">The search asks for something that is none.</exception>
    public static (IReadOnlyList<Exam> Exams, string? Next) Find(IClinicHouse house, ExamSearch search)
    {
        RequireWord(
            search.Finding,
            ExamSearch.FindingWords,
            words => ClinicText.Records.Get("Search.NoFinding", words)
        );
        RequireWord(search.Status, Statuses, words => ClinicText.Records.Get("Search.NoStatus", words));
        var numbers = PersonBehind.Numbers(house, Trimmed(search.Patient));
        var ahead = house.ExamsAheadOfLog();
        var page = Read(house, search, numbers);
        var found = page
            .Items.Where(stored => !ahead.Contains(ExamDocuments.IdOf(stored)))
            .Select(house.ReadExam)
            .Concat(ExamsOfPage.Ahead(house, ahead, search.After, page.Next))
            .Where(exam => Fits(exam, search, numbers))
            .OrderByDescending(ExamsOfPage.PlaceOf)
            .ToList();
        var next = page.Next;
        if (found.Count > search.Limit)
        {
            found.RemoveRange(search.Limit, found.Count - search.Limit);
            next = ExamsOfPage.PlaceOf(found[^1]).ToString();
        }

        return (found, next);
    }

    private static IReadOnlyList<string> Statuses { get; } =
    [.. Enum.GetValues<ExamStatus>().Select(ExamDocuments.WordOf)];

    private static Page<StoredExam> Read(IClinicHouse house, ExamSearch search, IReadOnlyList<string> numbers)
    {
        var query = new ExamQuery
        {
            PatientIds = [.. numbers],
            Status = search.Status,
            Examiner = Trimmed(search.Examiner),
            Finding = search.Finding,
            OpenedFrom = search.OpenedFrom,
            OpenedBefore = search.OpenedBefore,
            After = search.After,
            Limit = search.Limit,
        };
        try
        {
            return house.ReadLog(log => log.ListExams(query));
        }
        catch (ArgumentException problem)
        {
            throw new EntryProblemException(problem.Message, problem);
        }
    }

    /// <summary>Whether what was asked for still holds: the log may have an exam as it was a moment ago.</summary>
    private static bool Fits(Exam exam, ExamSearch search, IReadOnlyList<string> numbers)
    {
        var at = Shown.Time(exam.Opening.When.At);
        return (numbers.Count == 0 || (exam.Patient is { } patient && numbers.Contains(patient.Value)))
            && (search.Status is null || ExamDocuments.WordOf(exam.Status) == search.Status)
            && (Trimmed(search.Examiner) is not { } examiner || IsBy(exam, examiner))
            && (search.Finding is not { } finding || Has(exam, finding))
            && (search.OpenedFrom is not { } from || at >= from)
            && (search.OpenedBefore is not { } before || at < before);
    }

    private static bool Has(Exam exam, string finding) =>
        (IsCriterion(finding) ? CriteriaMet.Of(exam) : ExamFindings.Of(exam)).Contains(finding);

    private static bool IsCriterion(string finding) => CriteriaCatalogue.Find(finding) is not null;

    private static bool IsBy(Exam exam, string examiner) =>
        string.Equals(ExamDocuments.ExaminerOf(exam)?.Value, examiner, StringComparison.OrdinalIgnoreCase);

    private static string? Trimmed(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static void RequireWord(string? word, IReadOnlyList<string> words, Func<object[], string> problem)
    {
        if (word is not null && !words.Contains(word))
        {
            throw new EntryProblemException(problem([word, string.Join(", ", words)]));
        }
    }
}
