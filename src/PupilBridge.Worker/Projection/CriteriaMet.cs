using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Records;
using PupilBridge.Exams.Values;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// The criteria that are met in an exam, to search by. They follow from that exam's entries alone, so that an exam log that is built
/// anew has the same ones: of a signed exam what was signed, so with the changes since the visit before; of any other one what follows
/// from it without anything known beside it.
/// </summary>
public static class CriteriaMet
{
    /// <summary>The criteria that are met.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Their ids, each once, in the order of their characters; none while it takes events.</returns>
    public static ValueList<string> Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        if (exam.TakesEvents || exam.Status == ExamStatus.SetAside)
            return [];
        var findings = SignedFindings.Of(exam) ?? SignedRecords.Findings(new CriteriaInput { Exam = exam });
        return
        [
            .. findings
                .Where(finding => finding.Verdict == "met")
                .Items.Select(finding => finding.Criterion)
                .Distinct()
                .Order(StringComparer.Ordinal),
        ];
    }
}
