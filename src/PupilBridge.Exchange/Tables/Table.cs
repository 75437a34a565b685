using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Tables;

/// <summary>A table: its columns, and which rows an exam gives.</summary>
/// <typeparam name="T">What a row is made of.</typeparam>
/// <param name="Name">Its name.</param>
/// <param name="Row">What one row is, for people.</param>
/// <param name="Columns">Its columns, in order.</param>
/// <param name="Rows">From an exam to its rows.</param>
public sealed record Table<T>(
    string Name,
    string Row,
    IReadOnlyList<Column<T>> Columns,
    Func<OutgoingRecord, IEnumerable<T>> Rows
);

/// <summary>The tables of the clinic's own use.</summary>
public static class ClinicTables
{
    /// <summary>One row for each exam: its latest version.</summary>
    public static Table<OutgoingRecord> Exams { get; } =
        new("exams", "one exam, in its latest version", Columns.ExamColumns.All, exam => [exam]);

    /// <summary>One row for each capture, superseded ones included.</summary>
    public static Table<Reading> Readings { get; } =
        new("readings", "one capture: one pupil measured once", Columns.ReadingColumns.All, Reading.Of);
}
