using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>A clinic's desks with data that a test can change, and with all that was entered.</summary>
internal sealed partial class SampleHouse
{
    public SampleHouse()
    {
        Add(new PatientView("Q-1001", "Tamsin Quill", new DateOnly(1984, 3, 9)));
        Add(new PatientView("Q-1002", "Rowan Ebb", new DateOnly(1991, 12, 1)));
        Add(new PatientView("Q-1003", null, null));
        Records[2001] = SampleExams.Record(SampleExams.Rich(2001), Patients["Q-1001"]);
        Records[2400] = SampleExams.Record(SampleExams.Empty(2400), null);
        Found = [Of(Records[2001]), Of(Records[2400]) with { IsLeftOpen = true, Findings = ["incomplete"] }];
    }

    public Dictionary<string, PatientView> Patients { get; } = new(StringComparer.Ordinal);

    public Dictionary<long, RecordView> Records { get; } = [];

    public IReadOnlyList<FoundExam> Found { get; set; }

    public string? Next { get; set; }

    public List<DeskEntry> Entered { get; } = [];

    public List<ExamSearch> Searches { get; } = [];

    public DayListImport Import { get; set; } =
        new(true, new DateOnly(2026, 11, 25), 2, 1, "The list of 2026-11-25 holds 2 patients; 1 of them is new.", []);

    public string? ImportedText { get; private set; }

    /// <summary>What becomes of an entry; recorded unless a test says otherwise.</summary>
    public Func<DeskEntry, EntryOutcome> Outcome { get; set; } =
        entry => new EntryOutcome.Recorded(9001, (entry as ExamDeskEntry)?.Exam);

    public IReadOnlyList<InstrumentView> Instruments { get; set; } =
    [
        new()
        {
            Instrument = "QA-0007",
            Model = "Quay-A",
            Firmware = "2.4.1",
            Port = "/dev/serial/by-id/usb-quay-a-0007",
            Line = "connected",
            HeardAt = SampleExams.Morning,
            BatteryPercent = 81,
            OpenExam = 2400,
        },
        new()
        {
            Instrument = "QB-0112",
            Model = "Quay-B",
            Firmware = "1.9",
            Port = null,
            Line = "lost",
            HeardAt = null,
            BatteryPercent = null,
            OpenExam = null,
            Fault = "Lamp OS does not answer.",
        },
    ];

    public IReadOnlyList<LineView> Lines { get; set; } =
    [
        new("/dev/ttyACM0", "live", "", "QA-0007"),
        new(
            "/dev/ttyACM1",
            "forbidden",
            "The service may not open this port. Add its user to the group of the port.",
            null
        ),
    ];

    public string? Trouble { get; set; }

    /// <summary>Why no record can be shown; null if they can.</summary>
    public string? Obstacle { get; set; }

    public SampleHouse Add(PatientView patient)
    {
        Patients[patient.Patient] = patient;
        return this;
    }

    public static FoundExam Of(RecordView record) =>
        new()
        {
            Summary = record.Exam.Summary,
            PatientName = record.Patient?.Name,
            Findings = record.BeforeDrops.Count > 0 ? ["anisocoria", "poor-direct", "before-drops", "gap"] : [],
            BeforeDrops = record.BeforeDrops,
            IsLeftOpen = false,
        };

    private PatientHistory History(PatientView patient) =>
        new(
            patient,
            [
                .. Records
                    .Values.Where(record => record.Patient?.Patient == patient.Patient)
                    .Select(record => Visit(record.Exam)),
                .. patient.Patient == "Q-1001" ? Earlier() : [],
            ]
        )
        {
            Mergings = Mergings,
        };

    /// <summary>The mergings that every patient's page is told of.</summary>
    public IReadOnlyList<MergingView> Mergings { get; set; } = [];

    private static VisitView Visit(ExamView exam) =>
        new(
            exam.Summary,
            [.. exam.Sizes.Where(size => !size.IsSuperseded)],
            ["direct OD 3", "direct OS 1.5", "swing short worse OS"]
        );

    private static IEnumerable<VisitView> Earlier() =>
        Enumerable
            .Range(1, 4)
            .Select(i => new VisitView(
                SampleExams.Summary(1000 + (10 * i), status: "signed", at: SampleExams.Morning.AddDays(-170 * i)),
                [
                    SampleExams.Size("OD", "bright", 3.3 + (0.07 * i), 1001 + (10 * i), 1),
                    SampleExams.Size("OD", "dim", 5.8 + (0.1 * i), 1002 + (10 * i), 2, 60),
                    SampleExams.Size("OS", "bright", 3.4 + (0.05 * i), 1003 + (10 * i), 3),
                    SampleExams.Size("OS", "dim", 5.9 + (0.08 * i), 1004 + (10 * i), 4, 60),
                ],
                ["direct OD 3", "direct OS 3", "swing short alike"]
            ));
}
