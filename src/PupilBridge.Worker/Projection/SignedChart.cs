using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.Notation;
using PupilBridge.Exams.Records;

namespace PupilBridge.Worker.Projection;

/// <summary>
/// The chart text of an exam. Once a record was signed its own text stands, word for word, however a later version of the program would
/// write it; while an amendment is under way, and before a signature, the text follows from the exam.
/// </summary>
public static class SignedChart
{
    /// <summary>The text.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>In one line, and over several.</returns>
    public static RecordChart Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return RecordOf(exam) is { } record
            ? record.Chart
            : new RecordChart(ChartText.OneLine(exam), [.. ChartText.Block(exam)]);
    }

    /// <summary>The longest text, with findings, cautions and timing: of a signed exam out of what was signed.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="criteria">The exam with what criteria read beside it; only asked where nothing was signed.</param>
    /// <returns>Its lines.</returns>
    public static IReadOnlyList<string> Full(Exam exam, Func<CriteriaInput> criteria)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(criteria);
        return RecordOf(exam) is { } record
            ? FullChart.Of(record)
            : FullChart.Of(SignedRecords.Of(criteria(), exam.ProgramVersion));
    }

    /// <summary>The record that was signed last, as long as no amendment is under way.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Null where nothing was signed, it has been erased, or another program wrote it.</returns>
    public static SignedRecord? RecordOf(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam is { IsSealed: true, SignedVersions.Latest.Record: { } signed } ? Read(signed) : null;
    }

    private static SignedRecord? Read(string text)
    {
        try
        {
            return SignedRecordText.Read(text);
        }
        catch (FormatException)
        {
            // Another program's record in the journal: the exam is shown all the same, from its facts.
            return null;
        }
    }
}
