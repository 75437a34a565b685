using System.Globalization;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Tables;
using PupilBridge.Exchange.Tables.Columns;

namespace PupilBridge.Exchange.Research;

/// <summary>
/// The tables for research. A column stands here because somebody chose it: numbers, grades, verdicts and fixed words of the tables of the
/// clinic, with its subject, visit, examiner and instrument under other names and its day shifted. There is no free text in them.
/// </summary>
public static class ResearchTables
{
    /// <summary>Columns of the clinic's table of readings that say nothing of who it was or when.</summary>
    private static readonly string[] OfReadings =
    [
        "eye",
        "light",
        "millilux",
        "fixation",
        "dark_ms",
        "counts",
        "diameter_mm",
        "u_mm",
        "raw_um",
        "calibrated",
        "doubtful",
        "manner",
        "nasal_um",
        "temporal_um",
        "scale_home_um",
        "scale_direction",
        "scale_step_um",
    ];

    /// <summary>One row for each signed exam.</summary>
    /// <param name="names">The names of this export.</param>
    /// <param name="seen">Told of each exam that is exported.</param>
    public static Table<ResearchExam> Exams(Pseudonyms names, Action<ResearchExam> seen) =>
        new("research-exams", "one signed exam", ExamColumns, exam => Rows(exam, names, seen));

    /// <summary>One row for each capture of a signed exam.</summary>
    /// <param name="names">The names of this export.</param>
    /// <param name="seen">Told of each exam that is exported.</param>
    public static Table<(ResearchExam Exam, RecordSize Size)> Readings(Pseudonyms names, Action<ResearchExam> seen) =>
        new(
            "research-readings",
            "one capture of a signed exam",
            ReadingColumns,
            exam => Rows(exam, names, seen).SelectMany(one => one.Exam.Record.Sizes.Select(size => (one, size)))
        );

    /// <summary>The columns of exams.</summary>
    internal static IReadOnlyList<Column<ResearchExam>> ExamColumns { get; } =
    [
        .. Head<ResearchExam>(row => row),
        .. new[] { ExamSizes.All, ExamJudgements.All, ExamFindings.All }
            .SelectMany(columns => columns)
            .Select(column => new Column<ResearchExam>(
                column.Name,
                // The state of an eye is a list of fixed words.
                column.Kind == CellKind.Text
                    ? CellKind.Word
                    : column.Kind,
                column.Unit,
                column.Range,
                column.Meaning,
                row => column.Value(row.Exam)
            )),
    ];

    /// <summary>The columns of readings.</summary>
    internal static IReadOnlyList<Column<(ResearchExam Exam, RecordSize Size)>> ReadingColumns { get; } =
    [
        .. Head<(ResearchExam Exam, RecordSize Size)>(row => row.Exam),
        new(
            "after_s",
            CellKind.Fraction,
            "s",
            "0 or more",
            "How long after the exam opened the temporal edge was taken.",
            row => After(row.Exam.Exam.Record.Opened.At, row.Size.Temporal.At)
        ),
        .. ClinicTables
            .Readings.Columns.Where(column => OfReadings.Contains(column.Name))
            .Select(column => new Column<(ResearchExam Exam, RecordSize Size)>(
                column.Name,
                column.Kind,
                column.Unit,
                column.Range,
                column.Meaning,
                row => column.Value(new Reading(row.Exam.Exam, row.Size))
            )),
    ];

    private static IEnumerable<Column<T>> Head<T>(Func<T, ResearchExam> of) =>
        [
            Word<T>(
                "subject",
                "S and 16 hexadecimal digits",
                "Stands for the patient within this export.",
                r => of(r).Subject
            ),
            Word<T>(
                "visit",
                "V and 16 hexadecimal digits",
                "Stands for the exam within this export.",
                r => of(r).Visit
            ),
            Word<T>(
                "examiner",
                "E and 16 hexadecimal digits",
                "Stands for whoever opened the exam; empty if it opened by itself.",
                r => of(r).Examiner
            ),
            Word<T>("instrument", "I and 16 hexadecimal digits", "Stands for the instrument.", r => of(r).Instrument),
            new(
                "shifted_day",
                CellKind.Date,
                "",
                "year-month-day",
                "The day of the exam by UTC, shifted back by a number of days of the patient's own, 1 to 364: intervals between days of one "
                    + "subject are true, dates are not.",
                r => Cell.Of(of(r).Day)
            ),
            Word<T>("age_band", AgeBands.All, "The age at the exam; empty if it is not known.", r => of(r).AgeBand),
        ];

    private static Column<T> Word<T>(string name, string range, string meaning, Func<T, string?> value) =>
        new(name, CellKind.Word, "", range, meaning, row => Cell.Of(value(row)));

    private static IEnumerable<ResearchExam> Rows(OutgoingRecord exam, Pseudonyms names, Action<ResearchExam> seen)
    {
        if (ResearchExam.Of(exam, names) is not { } taken)
        {
            return [];
        }

        seen(taken);
        return [taken];
    }

    private static Cell After(string opened, string at)
    {
        var gone =
            DateTimeOffset.Parse(at, CultureInfo.InvariantCulture)
            - DateTimeOffset.Parse(opened, CultureInfo.InvariantCulture);
        return Cell.Milliseconds((long)gone.TotalMilliseconds);
    }
}
