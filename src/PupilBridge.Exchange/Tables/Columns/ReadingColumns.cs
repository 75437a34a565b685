using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Tables.Columns;

/// <summary>The columns of the table of readings: every capture with the raw positions behind it.</summary>
internal static class ReadingColumns
{
    private const string Micrometres = "µm";

    public static IReadOnlyList<Column<Reading>> All { get; } =
    [
        new("exam", CellKind.Whole, "", "1 or more", "The exam's number.", row => Cell.Of(row.Exam.Record.Exam)),
        new(
            "version",
            CellKind.Whole,
            "",
            "1 or more",
            "Which version of the exam's record the row is taken from.",
            row => Cell.Of(row.Exam.Record.Version)
        ),
        new(
            "status",
            CellKind.Word,
            "",
            ExamIdentity.Statuses,
            "Where the exam stands, as in the table of exams.",
            row => Cell.Of(ExamIdentity.StatusOf(row.Exam))
        ),
        new(
            "patient",
            CellKind.Text,
            "",
            "1 to 64 characters",
            "The clinic's number of the patient; empty while the exam is attached to nobody.",
            row => Cell.Of(row.Exam.Record.Patient)
        ),
        new(
            "patient_merged_into",
            CellKind.Text,
            "",
            "1 to 64 characters",
            "The number that goes on for the same person, where the exam's is merged into it now; empty where it is not.",
            row => Cell.Of(row.Exam.Patient?.MergedInto)
        ),
        new(
            "instrument",
            CellKind.Text,
            "",
            "serial number",
            "The instrument.",
            row => Cell.Of(row.Exam.Record.Instrument.Serial)
        ),
        .. Capture,
        .. Edge("nasal", size => size.Nasal),
        .. Edge("temporal", size => size.Temporal),
        .. Scale,
    ];

    private static IEnumerable<Column<Reading>> Capture =>
        [
            new("eye", CellKind.Word, "", Vocabulary.Eyes, "The eye.", row => Cell.Of(row.Size.Eye)),
            new(
                "light",
                CellKind.Word,
                "",
                Vocabulary.Of<RoomLight>(),
                "The room light; empty if it was not said.",
                row => Cell.Of(row.Size.Light)
            ),
            new(
                "millilux",
                CellKind.Whole,
                "mlx",
                Vocabulary.Counting,
                "The light sensor's reading; empty if there is none.",
                row => Cell.Of(row.Size.Millilux)
            ),
            new(
                "fixation",
                CellKind.Word,
                "",
                Vocabulary.Of<Fixation>(),
                "Where the patient looked; empty if it was not said.",
                row => Cell.Of(row.Size.Fixation)
            ),
            new(
                "dark_ms",
                CellKind.Whole,
                "ms",
                Vocabulary.Counting,
                "How long the eye had been in the dark; empty if the light was not dim, or nobody can know.",
                row => Cell.Of(row.Size.DarkMilliseconds)
            ),
            new(
                "counts",
                CellKind.YesNo,
                "",
                "true, false",
                "Whether it is the one that counts for its eye and light. false: a later one superseded it, or the light was not said.",
                row => Cell.Of(row.Size.Counts)
            ),
            new(
                "diameter_mm",
                CellKind.Fraction,
                "mm",
                "more than 0",
                "The corrected difference of the two edges.",
                row => Cell.Millimetres(row.Size.DiameterMicrometres)
            ),
            new(
                "u_mm",
                CellKind.Fraction,
                "mm",
                "0 or more",
                "Its expanded uncertainty, k = 2.",
                row => Cell.Millimetres(row.Size.ExpandedUncertaintyMicrometres)
            ),
            new(
                "raw_um",
                CellKind.Whole,
                Micrometres,
                "more than 0",
                "The difference of the two positions as read, without correction.",
                row => Cell.Of(row.Size.RawMicrometres)
            ),
            new(
                "calibrated",
                CellKind.YesNo,
                "",
                "true, false",
                "Whether reference discs stand behind the diameter.",
                row => Cell.Of(row.Size.IsCalibrated)
            ),
            new(
                "doubtful",
                CellKind.YesNo,
                "",
                "true, false",
                "Whether the state of the eye makes it unreliable.",
                row => Cell.Of(row.Size.IsDoubtful)
            ),
            new(
                "manner",
                CellKind.Word,
                "",
                Vocabulary.Of<CaptureManner>(),
                "How the edges were taken.",
                row => Cell.Of(row.Size.Manner)
            ),
            new(
                "completed_by",
                CellKind.Whole,
                "",
                "1 or more",
                "The journal's entry that completed it.",
                row => Cell.Of(row.Size.CompletedBy)
            ),
        ];

    private static IEnumerable<Column<Reading>> Scale =>
        [
            new(
                "scale_home_um",
                CellKind.Whole,
                Micrometres,
                "any",
                "Where this eye's scale rests; empty if the instrument never told.",
                row => Cell.Of(row.Scale?.HomeMicrometres)
            ),
            new(
                "scale_direction",
                CellKind.Word,
                "",
                Vocabulary.Of<ScaleDirection>(),
                "Where its positions grow towards; empty if the instrument never told.",
                row => Cell.Of(row.Scale?.Direction)
            ),
            new(
                "scale_step_um",
                CellKind.Whole,
                Micrometres,
                "1 or more",
                "The scale's step at the capture.",
                row => Cell.Of(row.Size.ResolutionMicrometres)
            ),
        ];

    private static IEnumerable<Column<Reading>> Edge(string name, Func<RecordSize, RecordEdge> edge) =>
        [
            new(
                $"{name}_um",
                CellKind.Whole,
                Micrometres,
                "any",
                $"The scale's position at the {name} edge, as the instrument said it; never rewritten.",
                row => Cell.Of(edge(row.Size).PositionMicrometres)
            ),
            new(
                $"{name}_at",
                CellKind.Time,
                "UTC",
                "ISO 8601",
                $"When the {name} edge was taken.",
                row => Cell.Of(edge(row.Size).At)
            ),
            new(
                $"{name}_entry",
                CellKind.Whole,
                "",
                "1 or more",
                $"The journal's entry of the {name} edge.",
                row => Cell.Of(edge(row.Size).Sequence)
            ),
        ];
}
