using System.Globalization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Constructed.Scripts;

/// <summary>What scripts enter at the bench.</summary>
public static class BenchEntriesOfScripts
{
    /// <summary>The set of discs of every script: three, certified to 3 µm each and 2 µm together.</summary>
    public static DiscSet Discs { get; } =
        new()
        {
            Name = "quay set",
            CertificateNumber = "QS-17",
            CertifiedBy = "gauge room",
            Certified = new(2026, 3, 1),
            Expires = new(2027, 3, 1),
            CommonUncertaintyMillimetres = 0.002,
            Discs = [new("d2", 2, 0.003), new("d5", 5, 0.003), new("d8", 8, 0.003)],
        };

    /// <summary>A run: kind, then for each reading the eye and a disc or a light.</summary>
    public static BenchRunBegun Begun(By by, SerialNumber serial, string[] w)
    {
        var kind = w[1] switch
        {
            "calibration" => BenchRunKind.Calibration,
            "quick" => BenchRunKind.QuickCheck,
            "timing" => BenchRunKind.StimulusTiming,
            "live" => BenchRunKind.LiveRepeatability,
            _ => throw new ArgumentException($"no kind of run: {w[1]}"),
        };
        return new()
        {
            Id = by.Id,
            Who = by.Who,
            At = by.At,
            ProgramVersion = by.Version,
            Serial = serial,
            Kind = kind,
            DiscSet = kind is BenchRunKind.Calibration or BenchRunKind.QuickCheck ? Discs : null,
            Plan = PlanOf(kind, w[2..]),
            Seed = 7,
            Rule = DecisionRule.Default,
            StraightnessMillimetres = 0,
            TemperatureCelsius = 21.5,
            Conditions = "",
        };
    }

    /// <summary>Readings before the right and the left lamp, in lux: <c>100,101 99,98</c>.</summary>
    public static LampBalanceEntered Lamps(By by, SerialNumber serial, string[] w) =>
        new()
        {
            Id = by.Id,
            Who = by.Who,
            At = by.At,
            ProgramVersion = by.Version,
            Serial = serial,
            Millilux = new() { Right = Lux(w[1]), Left = Lux(w[2]) },
            StepMillilux = 100,
            Source = LampReadingSource.Typed,
            Meter = "",
        };

    /// <summary>An entry about a run; null if the words are something else.</summary>
    public static ExamEntry? About(By by, ExamId run, Exam? sitting, string[] w) =>
        w[0] switch
        {
            "reading" => new BenchReadingMarked // reading 2 aside REASON… | reading 2 back REASON…
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = run,
                Reading = sitting?.Captures.ElementAtOrDefault(Number(w[1]) - 1)?.CompletedBy ?? new(Number(w[1])),
                IsSetAside = w[2] == "aside",
                Reason = string.Join(' ', w[3..]),
            },
            "finish" or "giveup" => new BenchRunEnded
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = run,
                IsFinished = w[0] == "finish",
                Reason = string.Join(' ', w[1..]),
            },
            "issue" => Issued(by, run, w),
            "adopt" => new RepeatabilityAdopted // adopt 0.08 12
            {
                Id = by.Id,
                Who = by.Who,
                At = by.At,
                ProgramVersion = by.Version,
                Exam = run,
                WithinMillimetres = double.Parse(w[1], CultureInfo.InvariantCulture),
                DegreesOfFreedom = Number(w[2]),
            },
            _ => null,
        };

    // issue 1 [offset=MM] [common=MM] [from=MS] [until=MS]: number, correction, what all discs share, and times from now on
    private static CalibrationIssued Issued(By by, ExamId run, string[] w)
    {
        double? Given(string name) =>
            w.FirstOrDefault(word => word.StartsWith(name + "=", StringComparison.Ordinal)) is { } word
                ? double.Parse(word[(name.Length + 1)..], CultureInfo.InvariantCulture)
                : null;
        var line = new CorrectionLine(5, Given("offset") ?? 0.05, 0, new(1e-6, 0, 0), 3)
        {
            Common = new(Given("common") ?? 0),
        };
        var scale = new CalibratedScale(line, 0.01, ConformityStatement.Pass, 2, 8);
        return new()
        {
            Id = by.Id,
            Who = by.Who,
            At = by.At,
            ProgramVersion = by.Version,
            Exam = run,
            Number = Number(w[1]),
            Effective = by.At.PlusMilliseconds((long)(Given("from") ?? 0)),
            Expires = Given("until") is { } until ? by.At.PlusMilliseconds((long)until) : null,
            Scales = new() { Right = scale, Left = scale },
            Certificate = $"certificate {w[1]}",
        };
    }

    private static ValueList<BenchStep> PlanOf(BenchRunKind kind, string[] steps)
    {
        if (steps.Length == 2 && steps[0] == "all")
            return BenchPlans.Calibration(Discs, Number(steps[1]), 7);
        var isLive = kind == BenchRunKind.LiveRepeatability;
        return
        [
            .. steps
                .Chunk(2)
                .Select(step => new BenchStep(
                    ScriptCommands.EyeOf(step[0]),
                    isLive ? null : step[1],
                    isLive ? Enum.Parse<RoomLight>(step[1], ignoreCase: true) : null
                )),
        ];
    }

    private static ValueList<long> Lux(string words) =>
        [.. words.Split(',').Select(lux => (long)(1000 * double.Parse(lux, CultureInfo.InvariantCulture)))];

    private static int Number(string word) => int.Parse(word, CultureInfo.InvariantCulture);
}
