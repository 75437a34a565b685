using System.Globalization;
using Microsoft.Extensions.Configuration;
using PupilBridge.Clinic.Bench;
using PupilBridge.Exams.Calibration.Decisions;

namespace PupilBridge.Configuration;

/// <summary>The settings of the service bench. The decision rule is settled here, before anything is measured.</summary>
internal static class BenchOptions
{
    private const string RuleKey = "Bench:Rule";
    private const string ClinicKey = "Web:Clinic";

    private static readonly Dictionary<string, DecisionRuleKind> Rules = new(StringComparer.OrdinalIgnoreCase)
    {
        ["guard-band"] = DecisionRuleKind.GuardBand,
        ["simple-acceptance"] = DecisionRuleKind.SimpleAcceptance,
    };

    private static readonly Number[] Numbers =
    [
        new("Bench:LimitMillimetres", "the maximum permissible error of a scale, in mm", 0.10m, 0.01m, 1m)
        {
            Apply = (s, value) => s with { Rule = s.Rule with { MaximumPermissibleErrorMillimetres = (double)value } },
        },
        new("Bench:GuardBandFactor", "the guard band as a multiple of the expanded uncertainty U", 1m, 0.1m, 3m)
        {
            Apply = (s, value) => s with { Rule = s.Rule with { GuardBandFactor = (double)value } },
        },
        new("Bench:CertificateMonths", "how long a calibration certificate holds, in months", 12m, 1m, 60m)
        {
            IsWhole = true,
            Apply = (s, value) => s with { CertificateMonths = (int)value },
        },
        new("Bench:CalibrationRepeats", "how often each disc is read by each scale in a calibration", 5m, 2m, 20m)
        {
            IsWhole = true,
            Apply = (s, value) => s with { CalibrationRepeats = (int)value },
        },
        new("Bench:QuickCheckRepeats", "how often the disc is read by each scale in a quick check", 2m, 1m, 20m)
        {
            IsWhole = true,
            Apply = (s, value) => s with { QuickCheckRepeats = (int)value },
        },
        new("Bench:LiveRepeats", "how often each eye is set in each light in a study on a person", 5m, 3m, 20m)
        {
            IsWhole = true,
            Apply = (s, value) => s with { LiveRepeats = (int)value },
        },
        new("Bench:DriftHorizonDays", "a drift that reaches the limit within so many days is warned of", 90m, 7m, 730m)
        {
            IsWhole = true,
            Apply = (s, value) => s with { DriftHorizonDays = (int)value },
        },
    ];

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            RuleKey,
            "how a scale's error is held against the limit (ILAC-G8:09/2019, 4.2)",
            "guard-band",
            string.Join(" or ", Rules.Keys),
            value => Rules.ContainsKey(value ?? "")
        ),
        .. Numbers.Select(number => new HouseSetting(
            number.Key,
            number.Meaning,
            Text(number.Default),
            $"a {(number.IsWhole ? "whole number" : "number")} from {Text(number.Least)} to {Text(number.Most)}",
            number.Accepts
        )),
    ];

    /// <summary>The bench, by checked settings.</summary>
    /// <param name="configuration">The settings.</param>
    public static BenchSettings Read(IConfiguration configuration)
    {
        var start = BenchSettings.Default with { ClinicName = configuration[ClinicKey] ?? "" };
        if (Rules.TryGetValue(configuration[RuleKey] ?? "", out var rule))
        {
            start = start with { Rule = start.Rule with { Kind = rule } };
        }

        return Numbers
            .Where(number => number.Accepts(configuration[number.Key]))
            .Aggregate(start, (s, number) => number.Apply(s, SettingNumber.Read(configuration[number.Key])!.Value));
    }

    private static string Text(decimal number) => number.ToString("0.###", CultureInfo.InvariantCulture);

    private sealed record Number(string Key, string Meaning, decimal Default, decimal Least, decimal Most)
    {
        public bool IsWhole { get; init; }

        public required Func<BenchSettings, decimal, BenchSettings> Apply { get; init; }

        public bool Accepts(string? text) =>
            SettingNumber.Read(text) is { } value
            && value >= Least
            && value <= Most
            && (!IsWhole || value == decimal.Truncate(value));
    }
}
