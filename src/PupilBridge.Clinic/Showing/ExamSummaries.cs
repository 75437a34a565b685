using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Criteria;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.Showing;

/// <summary>Exams as lists show them.</summary>
internal static class ExamSummaries
{
    /// <summary>An exam as it is now.</summary>
    public static ExamSummary Of(Exam exam) =>
        new()
        {
            Exam = exam.Id.Value,
            Patient = exam.Patient?.Value,
            OpenedAt = Shown.Time(exam.Opening.When.At),
            Status = ExamDocuments.WordOf(exam.Status),
            Instrument = exam.Serial.Value,
            Examiner = ExamDocuments.ExaminerOf(exam)?.Value,
            ChartLine = SignedChart.Of(exam).Line,
        };

    /// <summary>An exam as the log has it.</summary>
    public static ExamSummary Of(StoredExam stored) =>
        new()
        {
            Exam = long.Parse(stored.Id, CultureInfo.InvariantCulture),
            Patient = stored.PatientId,
            OpenedAt = stored.OpenedAt,
            Status = stored.Status,
            Instrument = stored.Instrument,
            Examiner = stored.Examiner,
            ChartLine = stored.ChartLine,
        };

    /// <summary>The chart text of an exam.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="criteria">The exam with what criteria read beside it; only asked where nothing was signed.</param>
    public static ChartView Chart(Exam exam, Func<CriteriaInput> criteria)
    {
        var chart = SignedChart.Of(exam);
        return new(
            exam.Id.Value,
            chart.Line,
            string.Join('\n', chart.Block),
            string.Join('\n', SignedChart.Full(exam, criteria))
        );
    }
}
