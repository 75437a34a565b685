using System.Globalization;
using Microsoft.Extensions.Configuration;
using PupilBridge.Exams.Criteria;

namespace PupilBridge.Configuration;

/// <summary>
/// The settings about criteria: limits in place of the published ones. What the profile says (the limit of equal sizes, the poor direct
/// response, the tolerance of dwells) is set there, so that chart and findings use the same.
/// </summary>
internal static class CriteriaOptions
{
    private const string EarlyKey = "Criteria:LagEarlySeconds";
    private const string LateKey = "Criteria:LagLateSeconds";
    private const string WindowKey = "Criteria:LagWindowSeconds";

    private static readonly Limit[] Limits =
    [
        new("Criteria:ClinicalAnisocoriaMillimetres", "the clinical limit of a size difference, in mm", 1.0m, 0.1m, 5m)
        {
            Apply = (limits, value) => limits with { ClinicalAnisocoria = Micrometres(value) },
        },
        new("Criteria:DilationLagMillimetres", "the limit of the dilation lag, in mm", 0.4m, 0.05m, 5m)
        {
            Apply = (limits, value) => limits with { DilationLag = Micrometres(value) },
        },
        new(EarlyKey, "the early time in the dark for the dilation lag, in seconds", 5m, 1m, 60m)
        {
            Apply = (limits, value) => limits with { LagEarlyMilliseconds = Thousandths(value) },
        },
        new(LateKey, "the late time in the dark for the dilation lag, in seconds", 15m, 2m, 120m)
        {
            Apply = (limits, value) => limits with { LagLateMilliseconds = Thousandths(value) },
        },
        new(WindowKey, "how far a size may be from those times and still count, in seconds", 2m, 0.1m, 10m)
        {
            Apply = (limits, value) => limits with { LagWindowMilliseconds = Thousandths(value) },
        },
        new("Criteria:DissociationGrades", "by how many grades near must exceed light, in steps of 0.5", 1m, 0.5m, 4m)
        {
            Step = 0.5m,
            Apply = (limits, value) => limits with { DissociationHalfSteps = (int)(value * 2) },
        },
        new("Criteria:LampBalanceDays", "after how many days a check of the lamps' balance is overdue", 365m, 1m, 3650m)
        {
            Step = 1m,
            Apply = (limits, value) => limits with { LampBalanceDays = (int)value },
        },
        new(
            "Criteria:BetweenVisitsMillimetres",
            "the standard deviation of a size between two visits, in mm",
            0.19m,
            0.01m,
            2m
        )
        {
            Apply = (limits, value) => limits with { BetweenVisits = Micrometres(value) },
        },
        new("Criteria:LikeLightFactor", "by which factor the lux of two visits may differ and be alike", 1.5m, 1m, 10m)
        {
            Apply = (limits, value) => limits with { LikeLightFactor = (double)value },
        },
        new(
            "Criteria:SpreadDimMillimetres",
            "how far sizes may lie from the expected one in dim light, in mm",
            2.1m,
            0.1m,
            5m
        )
        {
            Apply = (limits, value) => limits with { SpreadDim = Micrometres(value) },
        },
        new("Criteria:SpreadBrightMillimetres", "the same in very bright light, in mm", 1.05m, 0.1m, 5m)
        {
            Apply = (limits, value) => limits with { SpreadBright = Micrometres(value) },
        },
    ];

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        .. Limits.Select(limit => new HouseSetting(
            limit.Key,
            limit.Meaning,
            Text(limit.Default),
            limit.Step is { } step
                ? $"a number from {Text(limit.Least)} to {Text(limit.Most)} in steps of {Text(step)}"
                : $"a number from {Text(limit.Least)} to {Text(limit.Most)}",
            limit.Accepts
        )),
    ];

    /// <summary>What is wrong between settings that are each allowed.</summary>
    /// <param name="configuration">The settings.</param>
    /// <returns>Keys and messages.</returns>
    public static IEnumerable<(string Key, string Message)> Faults(IConfiguration configuration)
    {
        var limits = Read(configuration);
        var (early, late, window) = (
            limits.LagEarlyMilliseconds,
            limits.LagLateMilliseconds,
            limits.LagWindowMilliseconds
        );
        if (early + window >= late - window)
        {
            yield return (
                LateKey,
                $"{LateKey} is too near to {EarlyKey}: with {WindowKey} around both, one size could be early and late; set them further apart."
            );
        }
    }

    /// <summary>The limits, by checked settings.</summary>
    /// <param name="configuration">The settings.</param>
    public static CriteriaLimits Read(IConfiguration configuration) =>
        Limits
            .Select(limit => (limit, Value: SettingNumber.Read(configuration[limit.Key])))
            .Where(one => one.Value is not null && one.limit.Accepts(configuration[one.limit.Key]))
            .Aggregate(CriteriaLimits.Default, (limits, one) => one.limit.Apply(limits, one.Value!.Value));

    private static string Text(decimal number) => number.ToString("0.###", CultureInfo.InvariantCulture);

    private static Instrument.Micrometres Micrometres(decimal millimetres) => new(Thousandths(millimetres));

    private static int Thousandths(decimal number) => (int)Math.Round(number * 1000, MidpointRounding.AwayFromZero);

    private sealed record Limit(string Key, string Meaning, decimal Default, decimal Least, decimal Most)
    {
        public decimal? Step { get; init; }

        public required Func<CriteriaLimits, decimal, CriteriaLimits> Apply { get; init; }

        public bool Accepts(string? text) =>
            SettingNumber.Read(text) is { } value
            && value >= Least
            && value <= Most
            && (Step is not { } step || value % step == 0);
    }
}
