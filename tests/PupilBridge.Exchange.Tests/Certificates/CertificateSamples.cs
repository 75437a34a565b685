using System.Collections.Concurrent;
using PupilBridge.Constructed.Scripts;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Bench;
using PupilBridge.Exams.Bench.Certificates;
using PupilBridge.Exams.Bench.Runs;
using PupilBridge.Exams.Calibration.Decisions;
using PupilBridge.Exams.Calibration.Discs;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Profiles;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Tests.Certificates;

/// <summary>Certificates of Quayside Occupational Health, each made from a run in a journal.</summary>
internal static class CertificateSamples
{
    public const string Reason = "dust on the disc, wiped & read again";

    private const string Stimuli =
        "start 1.0; meet A; +1767600000000; lux 300; fix far; open Q-1003; +1000;"
        + "mode hold direct; +500; directs; mode hold short; +500; swings 1000 4 R; mode hold long; +500; swings 3000 4 L;"
        + "mode idle; ready";

    private static readonly ConcurrentDictionary<string, Certificate> Made = new(StringComparer.Ordinal);

    public static readonly string[] Names = ["passing", "failing", "set-aside", "bent", "between", "bare", "large"];

    /// <summary>One of <see cref="Names"/>, as issued.</summary>
    public static Certificate Of(string name) => Made.GetOrAdd(name, Make);

    private static Certificate Make(string name) =>
        name switch
        {
            // A scale that reads 0.02 mm too much, and one that reads 0.3 % too little.
            "passing" => Issue(Run(5, 5, d => d + 0.02, d => d * 0.997)),
            // Gain 1.05 on the right: 0.4 mm at 8 mm.
            "failing" => Issue(Run(5, 5, d => d * 1.05, d => d + 0.01)),
            "set-aside" => Issue(Run(5, 5, d => d + 0.02, d => d * 0.997, isOneSetAside: true)),
            // The left scale bends by 0.04 mm in the middle.
            "bent" => Issue(Run(6, 5, d => d + 0.02, d => d + (0.05 * Math.Sin((d - 2) / 6 * Math.PI)))),
            // Just within the limit, and just beyond it.
            "between" => Issue(Run(5, 3, d => d + 0.093, d => d - 0.105, deviation: 0.02)),
            "bare" => Bare(Issue(Run(3, 2, d => d, d => d + 0.01, rule: new(DecisionRuleKind.SimpleAcceptance, 0.10)))),
            "large" => Issue(Run(12, 10, d => d * 1.004, d => d - 0.01)),
            _ => throw new ArgumentException(name),
        };

    public static string Json(string name) => CertificateText.Write(Of(name));

    public static Certificate Issue(Exam run)
    {
        var stimuli = Script.Run(Stimuli).Exam;
        var last = run.LastActivity.At.ToDateTimeOffset();
        var lamps = LampBalance.Of(
            new PerEye<IReadOnlyList<double>> { Right = [402, 405, 403], Left = [391, 393, 390] },
            1
        );
        return CertificateMaking.Of(
            run,
            CalibrationOutcome.Of(run),
            new()
            {
                Number = 12,
                Clinic = "Quayside Occupational Health",
                Issued = UtcTime.From(last.AddMinutes(9)),
                IssuedBy = new("SV"),
                Effective = UtcTime.From(last.AddMinutes(10)),
                Expires = UtcTime.From(last.AddDays(365)),
                Supersedes = null,
                Timing = CertifiedTimings.Of("exam 3", [stimuli], Profile.Default),
                Lamps = new(new(90), UtcTime.From(last.AddMinutes(-40)), new("TK"), LampReadingSource.Typed, lamps),
                Repeatability = new(new(72), UtcTime.From(last.AddDays(-3)), new(70), 0.0831, 24),
                ProgramVersion = "0.5",
                JournalHead = $"{run.LastActivity.Sequence.Value}:{new string('a', 60)}01ef",
            }
        );
    }

    /// <summary>Nothing measured but the scales, and nothing said that need not be.</summary>
    private static Certificate Bare(Certificate whole) =>
        whole with
        {
            Clinic = "",
            Expires = null,
            Timing = null,
            Lamps = null,
            Repeatability = null,
            JournalHead = "",
            Discs = whole.Discs with { Expires = null },
            Run = whole.Run with { TemperatureCelsius = null, Conditions = "" },
        };

    /// <summary>A finished run: every disc read so often by both scales, with scatter, to whole steps of 10 µm.</summary>
    public static Exam Run(
        int discs,
        int repeats,
        Func<double, double> right,
        Func<double, double> left,
        bool isOneSetAside = false,
        double deviation = 0.012,
        DecisionRule? rule = null,
        string conditions = "instrument on for 20 min, blinds shut"
    )
    {
        var set = Set(discs);
        var chance = new Random(discs + (100 * repeats));
        var journal = new BenchJournal();
        journal.Begin(set, repeats, rule ?? DecisionRule.Default, 0.002, conditions);
        journal.Measure();
        var isToCome = isOneSetAside;
        while (RunProgress.Of(journal.Run).Asked is { } step)
        {
            var certified = set.Find(step.Disc!)!.DiameterMillimetres;
            var shown = (step.Eye == Eye.Right ? right : left)(certified) + (deviation * Normal(chance));
            if (isToCome && step is { Eye: Eye.Left, Disc: "D3" })
            {
                journal.SetAside(journal.Read(step.Eye, Steps(shown + 0.35)), Reason);
                isToCome = false;
            }
            else
                journal.Read(step.Eye, Steps(shown));
        }

        journal.Finish();
        return journal.Run;
    }

    /// <summary>Discs from 2 mm to 8 mm.</summary>
    public static DiscSet Set(int discs) =>
        new()
        {
            Name = "Quay discs 1",
            CertificateNumber = "QD-2025-118",
            CertifiedBy = "a laboratory for lengths",
            Certified = new(2025, 6, 2),
            Expires = new(2027, 6, 1),
            CommonUncertaintyMillimetres = 0.0015,
            Discs =
            [
                .. Enumerable
                    .Range(0, discs)
                    .Select(n => new Disc($"D{n + 1}", Math.Round(2 + (6.0 * n / (discs - 1)), 3) + 0.001, 0.002)),
            ],
        };

    private static int Steps(double millimetres) => (int)Math.Round(millimetres * 100) * 10;

    private static double Normal(Random chance) =>
        Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
}
