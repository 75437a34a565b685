using PupilBridge.Clinic.Views;
using PupilBridge.Exchange.Tests.Certificates;

namespace PupilBridge.Console.Tests.Pages.Support;

/// <summary>A service bench with two instruments, two sets of discs and a run of each kind.</summary>
internal static class SampleBench
{
    public const string Rule = "Guard band w = 1 U: pass where the error is at most 0.1 mm − w.";

    public static DateTimeOffset Begun { get; } = new(2026, 11, 24, 8, 5, 0, TimeSpan.Zero);

    public static DiscSetView Box { get; } =
        new(
            "Box 1",
            "K-2207/26",
            "Harbour Metrology",
            new(2026, 5, 4),
            new(2028, 5, 3),
            false,
            0.0004,
            [new("D2", 2.001, 0.0005), new("D4", 4.002, 0.0005), new("D6", 5.998, 0.0005), new("D8", 8.003, 0.0005)]
        );

    public static DiscSetView OldBox { get; } =
        Box with
        {
            Name = "Old box",
            Certified = new(2021, 5, 4),
            Expires = new(2023, 5, 3),
            IsExpired = true,
        };

    public static BenchInstrument Calibrated { get; } =
        new()
        {
            Instrument = "QA-0007",
            Model = "Quay-A",
            Line = "connected",
            Calibration = new(
                "holds",
                4,
                Begun.AddDays(-30),
                Begun.AddDays(335),
                "Calibrated by certificate 4, valid until 2027-10-25."
            ),
            Lamps = new(Begun.AddDays(-12), 12, 0.013, 0.008, false),
            LiveRepeatabilityMillimetres = 0.081,
            OpenRun = 3001,
            OpenRunKind = "calibration",
            OpenExam = null,
        };

    public static BenchInstrument Uncalibrated { get; } =
        new()
        {
            Instrument = "QB-0112",
            Model = "Quay-B",
            Line = "lost",
            Calibration = new("missing", null, null, null, "Not calibrated."),
            Lamps = null,
            LiveRepeatabilityMillimetres = null,
            OpenRun = null,
            OpenRunKind = null,
            OpenExam = 2400,
        };

    public static BenchOverview Overview { get; } =
        new([Calibrated, Uncalibrated], [Box, OldBox], new(Rule, 5, 2, 5, 12, 5));

    public static BenchRunLine Line(long run, string kind, string state) =>
        new(run, "QA-0007", kind, Begun, "RS", state, null, new() { Right = 0.031, Left = null });

    /// <summary>A calibration in the middle: one reading counts, one is far off, one is set aside, one came by the other scale.</summary>
    public static BenchRunView Calibration { get; } =
        Empty(Line(3001, "calibration", "open")) with
        {
            Asked = new("OD", "D4", 4.002, null),
            Done = 2,
            ToCome = 38,
            Next = [new("OS", "D8", 8.003, null), new("OD", "D2", 2.001, null)],
            Readings =
            [
                Reading(3010, "OD", "D2", 2.03, "counts"),
                Reading(3014, "OS", "D8", 8.41, "counts") with
                {
                    FarOff = true,
                },
                Reading(3018, "OS", "D6", 6.02, "set-aside") with
                {
                    Reason = "the disc slipped",
                    Who = "RS",
                },
                Reading(3022, "OS", "D4", 4.01, "other-scale"),
            ],
            Refused = ["OD: TooSmall (3030)"],
            Scales = new()
            {
                Right = new(
                    "pass",
                    "pass: error +0.031 mm ± 0.012 mm (95 %) at disc D2.",
                    [new("D2", 2.001, 2, 2.032, 0.031, 0.012, "pass")],
                    "correction −0.031 mm",
                    [new("repeatability", "A", 0.0061, 12), new("common-offset", "B", 0.0004, null)]
                ),
                Left = new(null, "At least 3 discs are needed; 1 was read.", [], null, []),
            },
            Incidents = ["gap: 3 events were lost"],
        };

    public static BenchRunView Timing { get; } =
        Empty(Line(3002, "timing", "open")) with
        {
            DiscSet = null,
            Rule = null,
            Blocks =
            [
                new("direct", 1000, 3, new() { Right = 3, Left = 3 }),
                new("swing-short", 1000, 3, new() { Right = 1, Left = 0 }),
                new("swing-long", 3000, 3, new() { Right = 0, Left = 0 }),
            ],
            Timing =
            [
                new("direct", "OD", 3, 1000.3, 0.6, 1000, 1001, "within", 3000.2, "within"),
                new("swing-short", "OD", 1, 1092, null, 1092, 1092, "too-long", null, "not-judged"),
            ],
        };

    public static BenchRunView LiveStudy { get; } =
        Empty(Line(3003, "live-repeatability", "open")) with
        {
            DiscSet = null,
            Rule = null,
            Asked = new("OS", null, null, "dim"),
            Done = 11,
            ToCome = 9,
            Live = new(null, 0, null, "At least two settings of each are needed.", false),
        };

    public static BenchRunView BrokenOff { get; } =
        Empty(Line(3004, "calibration", "broken-off")) with
        {
            Why = "The instrument was switched off.",
            InstrumentLine = "off",
        };

    public static IReadOnlyList<BenchRunView> Runs { get; } = [Calibration, Timing, LiveStudy, BrokenOff];

    /// <summary>The finished calibration whose certificate can be issued.</summary>
    public const long FinishedRun = 3005;

    public static string CertificateJson { get; } = CertificateSamples.Json("set-aside");

    public static CertificateDraft Draft { get; } = new(CertificateJson, "digest-of-what-was-seen", null);

    public static CertificateView Certificate { get; } =
        new(12, "QA-0007", FinishedRun, CertificateJson, "Calibrated by certificate 12.", null);

    public static IReadOnlyList<CertificateLine> CertificateLines { get; } =
    [
        new(13, 3005, Begun, Begun.AddYears(1), "Calibrated by certificate 13.", null),
        new(12, 2905, Begun.AddDays(-30), null, "Superseded by certificate 13.", 13),
    ];

    public static DriftView Drift { get; } =
        new(
            "QA-0007",
            0.1,
            new() { Right = Series(0.03, 0.001, "as-usual"), Left = Series(-0.02, -0.006, "warning") },
            new()
            {
                Right = new([], null, null, null, "too-few-points", "0 points: too few."),
                Left = new([], null, null, null, "too-few-points", "0 points: too few."),
            },
            new() { Right = Series(0.001, 0.0001, "as-usual"), Left = Series(0.12, 0, "beyond-limit") },
            Timing.Timing,
            37
        )
        {
            SlopeLimit = 0.0125,
        };

    private static DriftSeries Series(double from, double step, string state) =>
        new(
            [
                .. Enumerable
                    .Range(0, 10)
                    .Select(i => new DriftPointView(
                        new DateOnly(2026, 11, 1).AddDays(i),
                        from + (i * step),
                        2800 + i,
                        i % 3 != 0
                    )),
            ],
            from,
            from + 0.01,
            from - 0.01,
            state,
            $"The words of {state}."
        );

    public static BenchReadingView Reading(long entry, string eye, string disc, double millimetres, string state) =>
        new(
            entry,
            Begun.AddSeconds(entry - 3000),
            eye,
            disc,
            2000,
            2000 + (int)(millimetres * 1000),
            millimetres,
            state,
            false,
            null,
            null
        );

    public static BenchRunView Empty(BenchRunLine line) =>
        new()
        {
            Line = line,
            InstrumentLine = "connected",
            OtherInstrument = null,
            DiscSet = Box,
            Rule = Rule,
            Conditions = "21.5 °C",
            Seed = "00000000000000a7",
            Asked = null,
            Done = 0,
            ToCome = 0,
            Next = [],
            Readings = [],
            Refused = [],
            Scales = null,
            Blocks = [],
            Timing = [],
            Live = null,
            Why = null,
            Incidents = [],
        };
}
