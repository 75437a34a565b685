using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Queries;

/// <summary>An exam log with ten thousand exams, and the plain list to compare with.</summary>
public sealed class TenThousandExams : IDisposable
{
    public const int Count = 10_000;
    private readonly DataFolder data = new();
    private readonly List<StoredExam> exams = Enumerable.Range(0, Count).Select(n => Samples.Exam(n)).ToList();

    public TenThousandExams()
    {
        Store = ExamLogStore.Open(data.Path);
        var upTo = 0L;
        foreach (var batch in exams.Chunk(500))
        {
            Store.Apply(++upTo, new ExamLogChanges { Exams = batch });
        }

        Store.Apply(
            ++upTo,
            new ExamLogChanges { Patients = Enumerable.Range(0, 40).Select(n => Samples.Patient(n)).ToList() }
        );
    }

    public ExamLogStore Store { get; }

    public IEnumerable<StoredExam> Expected(ExamQuery query) =>
        exams
            .Where(exam => query.PatientIds.Count == 0 || query.PatientIds.Contains(exam.PatientId ?? ""))
            .Where(exam => query.Statuses.Count == 0 || query.Statuses.Contains(exam.Status))
            .Where(exam =>
                query.Examiner is null
                || string.Equals(exam.Examiner, query.Examiner, StringComparison.OrdinalIgnoreCase)
            )
            .Where(exam => query.Finding is null || exam.Findings.Contains(query.Finding))
            .Where(exam => query.OpenedFrom is null || exam.OpenedAt >= query.OpenedFrom)
            .Where(exam => query.OpenedBefore is null || exam.OpenedAt < query.OpenedBefore)
            .OrderByDescending(exam => exam.OpenedAt)
            .ThenByDescending(exam => exam.Id, StringComparer.Ordinal);

    public void Dispose()
    {
        Store.Dispose();
        data.Dispose();
    }
}
