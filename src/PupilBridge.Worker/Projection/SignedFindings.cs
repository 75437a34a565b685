using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Records;
using PupilBridge.Exams.Values;

namespace PupilBridge.Worker.Projection;

/// <summary>What every criterion said when an exam was signed.</summary>
public static class SignedFindings
{
    /// <summary>The findings of the latest signed version.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>
    /// Null where none was signed, an amendment is under way, the record was erased, or its format had no findings: then they follow from
    /// the exam.
    /// </returns>
    public static ValueList<RecordFinding>? Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        if (exam is not { IsSealed: true, SignedVersions.Latest.Record: { } signed })
            return null;
        try
        {
            var findings = SignedRecordText.Read(signed).Findings;
            return findings.Count == 0 ? null : findings;
        }
        catch (FormatException)
        {
            // Another program's record in the journal: the exam is shown all the same, from its facts.
            return null;
        }
    }
}
