using System.Globalization;
using Microsoft.Extensions.Configuration;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Lanes;
using PupilBridge.Exams.Assembly.Views;

namespace PupilBridge.Configuration;

/// <summary>The settings about what a lane reminds of.</summary>
internal static class LaneOptions
{
    private const string Quiet = "Lanes:QuietReminders";
    private const string LeftOnSeconds = "Lanes:LeftOnSeconds";

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            Quiet,
            "reminders that lanes do not show",
            "",
            $"with commas between: {string.Join(", ", LaneSettings.Words)}",
            value => TryReadQuiet(value) is not null
        ),
        new(
            LeftOnSeconds,
            "after how many seconds without an event, with the dial at idle, an instrument counts as left on after an exam",
            "120",
            "a whole number from 10 to 3600",
            value => Number(value) is >= 10 and <= 3600
        ),
    ];

    /// <summary>What lanes remind of, by checked settings.</summary>
    /// <param name="configuration">The settings.</param>
    /// <returns>The lanes' settings.</returns>
    public static LaneSettings Read(IConfiguration configuration)
    {
        var rules = LaneReminderRules.Default;
        return new LaneSettings
        {
            Quiet = TryReadQuiet(configuration[Quiet]) ?? LaneSettings.Default.Quiet,
            Rules = Number(configuration[LeftOnSeconds]) is { } seconds
                ? rules with
                {
                    LeftOnAfterMilliseconds = seconds * 1000,
                }
                : rules,
        };
    }

    private static IReadOnlySet<ReminderKind>? TryReadQuiet(string? value)
    {
        try
        {
            return LaneSettings.ReadQuiet(
                (value ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            );
        }
        catch (EntryProblemException)
        {
            return null;
        }
    }

    private static int? Number(string? value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
