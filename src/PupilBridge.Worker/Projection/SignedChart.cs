using PupilBridge.Exams.Assembly.Facts;
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
        return exam is { IsSealed: true, SignedVersions.Latest.Record: { } signed } && Read(signed) is { } record
            ? record.Chart
            : new RecordChart(ChartText.OneLine(exam), [.. ChartText.Block(exam)]);
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
