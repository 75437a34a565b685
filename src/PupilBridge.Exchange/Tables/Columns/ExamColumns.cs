using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Tables.Columns;

/// <summary>The columns of the table of exams. The patient's name and people's remarks are in none of them.</summary>
internal static class ExamColumns
{
    public static IReadOnlyList<Column<OutgoingRecord>> All { get; } =
    [
        .. ExamIdentity.All,
        .. ExamSizes.All,
        .. ExamJudgements.All,
        .. ExamFindings.All,
        new(
            "chart_line",
            CellKind.Text,
            "",
            "text",
            "The chart text in one line. Nothing that was not examined is written in it as normal.",
            exam => Cell.Of(exam.Record.Chart.Line)
        ),
    ];
}
