using PupilBridge.Clinic.Views;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>Exams of a clinic day, rich and empty, as the desk shows them.</summary>
internal static partial class SampleExams
{
    public const string Digest = "3f5a1c0e9b7d24681357ace0bdf9e8c7a6b5948372610fedcba9876543210abc";

    public static readonly DateTimeOffset Morning = new(2026, 11, 25, 9, 12, 30, TimeSpan.Zero);

    public static ExamSummary Summary(
        long exam,
        string? patient = "Q-1001",
        string status = "ready-for-review",
        DateTimeOffset? at = null
    ) =>
        new()
        {
            Exam = exam,
            Patient = patient,
            OpenedAt = at ?? Morning,
            Status = status,
            Instrument = "QA-0007",
            Examiner = "mk",
            ChartLine =
                "P not round OS: E, RL claimed; A not examined. Sizes: OD (right) dim→bright 5.9→3.4 mm, OS (left) dim→bright 6.0→4.1 mm; "
                + "±0.31 mm (k = 2, setting repeatability assumed), uncalibrated. Direct: OD (right) 3+, OS (left) 1.5+. "
                + "Swinging: RAPD OS (left), seen on the short dwell.",
        };

    /// <summary>An exam with all that a record can hold.</summary>
    public static ExamView Rich(long exam, string status = "ready-for-review")
    {
        var summary = Summary(exam, status: status);
        return new ExamView
        {
            Summary = summary,
            Closing = new ClosingView(Morning.AddMinutes(6), "made-ready"),
            Sizes =
            [
                Size("OD", "bright", 3.42, 2011, 40),
                Size("OD", "dim", 5.91, 2040, 95, dark: 64),
                Size("OS", "bright", 4.12, 2017, 52),
                Size("OS", "dim", 6.03, 2046, 110, dark: 81) with
                {
                    Fixation = "near",
                },
                Size("OS", "bright", 4.48, 2014, 46) with
                {
                    IsSuperseded = true,
                },
            ],
            Judgements =
            [
                Judged("shape OD round", 2050, 120),
                Judged("shape OS not-round", 2051, 124),
                Judged("direct OD 3", 2070, 150),
                Judged("direct OS 1.5", 2078, 170),
                Judged("consensual lit OS 2", 2080, 175),
                Judged("swing short worse OS", 2101, 210),
                Judged("swing long alike", 2130, 260),
                Judged("near OD 3", 2140, 290),
                Judged("near OS could-not-see", 2141, 294),
                Judged("direct OD 2", 2068, 148) with
                {
                    Counts = false,
                    WhyNot = "a later one holds",
                },
                Judged("swing long worse OD", 2110, 230) with
                {
                    Counts = false,
                    WhyNot = "the alternations of that dwell are not complete yet",
                },
            ],
            Stimuli =
            [
                .. Enumerable
                    .Range(0, 6)
                    .Select(i => Stimulus(i % 2 == 0 ? "OD" : "OS", "direct", 1, 1003 + i, 2060 + i)),
                .. Enumerable
                    .Range(0, 5)
                    .Select(i => Stimulus(i % 2 == 0 ? "OD" : "OS", "swing-short", 2, 1000 + (40 * i), 2090 + i)),
            ],
            EyeStatuses =
            [
                new EyeStatusView("OS", ["surgery-or-injury", "lid-down"], "mk", Morning.AddSeconds(20), Id(9), true),
                new EyeStatusView("OD", ["nothing-remarkable"], "mk", Morning.AddSeconds(15), Id(8), true),
            ],
            Notes = [new NoteView("Patient was tired after a night shift.", "mk", Morning.AddMinutes(4), Id(7), true)],
            Incidents =
            [
                new IncidentView(
                    "Events are lost for good.",
                    "Two events between 41 and 42 of this boot.",
                    Morning.AddSeconds(99),
                    2044
                ),
                new IncidentView("The line was lost.", "", Morning.AddSeconds(101), 2045),
            ],
            AskedFor = new AskedForView(exam, []),
            DefectGrade = SampleFindings.NoDefect,
            Findings = SampleFindings.All,
            Chart = Chart(exam),
        };
    }

    /// <summary>An exam in which nothing was done.</summary>
    public static ExamView Empty(long exam) =>
        new()
        {
            Summary = Summary(exam, patient: null, status: "open") with
            {
                Examiner = null,
                ChartLine = "Nothing examined.",
            },
            Closing = null,
            Sizes = [],
            Judgements = [],
            Stimuli = [],
            EyeStatuses = [],
            Notes = [],
            Incidents = [],
            AskedFor = new AskedForView(
                exam,
                [
                    new AskedStep("sizes-bright", ["OD", "OS"], false, "Measure the pupil of OD (right)."),
                    new AskedStep("shape", ["OD", "OS"], false, "Still to come: shape."),
                    new AskedStep("direct", ["OD", "OS"], false, "Still to come: direct response."),
                ]
            ),
            DefectGrade = SampleFindings.NoDefect,
            Findings = [],
            Chart = new ChartView(
                exam,
                "Nothing examined.",
                "Nothing examined.",
                "Nothing examined, and no criterion asked."
            ),
        };

    private static ChartView Chart(long exam) =>
        new(
            exam,
            Summary(exam).ChartLine,
            "PER—: E and RL claimed; shape not round OS; A not examined\n"
                + "OD (right): dim→bright 5.9→3.4 mm; shape round; direct 3+; near 3+\n"
                + "OS (left):  dim→bright 6.0→4.1 mm; shape not round; direct 1.5+; consensual 2+ (light in OS (left)); near could not be seen\n"
                + "Swinging: RAPD OS (left), seen on the short dwell; the long dwell disagrees\n"
                + "Sizes ±0.31 mm (k = 2, setting repeatability assumed), uncalibrated\n"
                + "Values as measured and judged; no diagnosis. Follow local policy; a licensed practitioner decides.",
            "PER—: E and RL claimed; shape not round OS; A not examined\n"
                + "Found: Pupil of OS (left) not round.\n"
                + "Criteria: 49 answers, 31 of them that it was not examined.\n"
                + "Values as measured and judged; no diagnosis. Follow local policy; a licensed practitioner decides."
        );

    public static SizeView Size(string eye, string? light, double mm, long sequence, int second, double? dark = null) =>
        new()
        {
            Eye = eye,
            Light = light,
            Fixation = "far",
            Millimetres = mm,
            UncertaintyMillimetres = 0.31,
            IsCalibrated = false,
            NasalMicrometres = 1000,
            TemporalMicrometres = 1000 + (int)(mm * 1000),
            NasalEdgeAtHome = eye == "OD",
            DarkSeconds = dark,
            At = Morning.AddSeconds(second),
            Sequence = sequence,
            IsSuperseded = false,
        };

    private static JudgementView Judged(string text, long sequence, int second) =>
        new()
        {
            Judgement = text,
            Who = "mk",
            At = Morning.AddSeconds(second),
            EntryId = Id(sequence),
            Sequence = sequence,
            Counts = true,
            WhyNot = null,
        };

    private static StimulusView Stimulus(string eye, string block, int run, long dwell, long sequence) =>
        new()
        {
            Eye = eye,
            Block = block,
            Run = run,
            DwellMilliseconds = dwell,
            Timing = dwell > 1050 ? "too-long" : "within",
            Sequence = sequence,
        };

    public static string Id(long number) => number.ToString("x32", System.Globalization.CultureInfo.InvariantCulture);
}
