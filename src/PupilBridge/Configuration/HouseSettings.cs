using System.Globalization;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.Logging;
using PupilBridge.Desk;

namespace PupilBridge.Configuration;

/// <summary>
/// The settings of the program around the bridge: the local socket, the console, and how much is logged. The
/// bridge's own settings are read by the worker.
/// </summary>
internal static class HouseSettings
{
    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            "Desk:MaxClients",
            "commands that may be connected to the running service at once",
            "16",
            "a whole number from 1 to 256",
            value => WholeNumber(value) is >= 1 and <= 256
        ),
        .. WebSettings.All,
        .. PeopleSettings.All,
        .. LaneOptions.All,
        .. DayListSettings.All,
        .. SiteSettings.All,
        .. CriteriaOptions.All,
        .. BenchOptions.All,
        .. FhirOptions.All,
        .. SendingOptions.All,
        .. StampOptions.All,
        .. ProtectionOptions.All,
        .. RetentionOptions.All,
    ];

    private static readonly string[] Sections =
    [
        "Bridge",
        "Criteria",
        "DayLists",
        "Desk",
        "Fhir",
        "Lanes",
        "Logging",
        "People",
        "Protection",
        "Retention",
        "Sending",
        "Site",
        "Stamps",
        "Web",
    ];

    /// <summary>Variables that begin like settings and are none.</summary>
    private static readonly string[] OtherVariables = ["DATA", "TRACE", "WHO"];

    /// <summary>Finds everything that is wrong outside the bridge's own section.</summary>
    /// <param name="configuration">The settings.</param>
    /// <returns>Keys and messages.</returns>
    public static IEnumerable<(string Key, string Message)> Faults(IConfiguration configuration)
    {
        foreach (var section in configuration.GetChildren())
        {
            if (!Sections.Contains(section.Key, StringComparer.OrdinalIgnoreCase) && !IsOther(section))
            {
                yield return (
                    section.Key,
                    $"{section.Key} is no section of the settings; allowed are {string.Join(", ", Sections)}."
                );
            }
        }

        foreach (
            var key in (
                (string[])
                    [
                        "Criteria",
                        "DayLists",
                        "Desk",
                        "Fhir",
                        "Lanes",
                        "People",
                        "Protection",
                        "Retention",
                        "Sending",
                        "Site",
                        "Stamps",
                        "Web",
                    ]
            ).SelectMany(s => KeysBelow(configuration, s))
        )
        {
            var setting = All.FirstOrDefault(s => s.Key.Equals(key, StringComparison.OrdinalIgnoreCase));
            if (setting is null)
            {
                yield return (key, $"{key} is no setting; allowed are {string.Join(", ", All.Select(s => s.Key))}.");
            }
            else if (!setting.Accepts(configuration[key]))
            {
                yield return (key, $"{key} is '{configuration[key]}'; allowed is {setting.Allowed}.");
            }
        }

        foreach (var fault in SiteSettings.Faults(configuration).Concat(CriteriaOptions.Faults(configuration)))
        {
            yield return fault;
        }

        foreach (var fault in SendingOptions.Faults(configuration))
        {
            yield return fault;
        }

        foreach (var level in configuration.GetSection("Logging:LogLevel").GetChildren())
        {
            if (!Enum.TryParse<LogLevel>(level.Value, ignoreCase: true, out var known) || !Enum.IsDefined(known))
            {
                yield return (
                    level.Path,
                    $"{level.Path} is '{level.Value}'; allowed is one of {string.Join(", ", Enum.GetNames<LogLevel>())}."
                );
            }
        }
    }

    /// <summary>What the local socket takes, by checked settings.</summary>
    /// <param name="configuration">The settings.</param>
    /// <returns>The limits.</returns>
    public static DeskLimits Limits(IConfiguration configuration) =>
        WholeNumber(configuration["Desk:MaxClients"]) is { } clients
            ? new DeskLimits { MaxClients = clients }
            : new DeskLimits();

    private static int? WholeNumber(string? value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;

    private static bool IsOther(IConfigurationSection section) =>
        section.Value is not null && OtherVariables.Contains(section.Key, StringComparer.OrdinalIgnoreCase);

    private static IEnumerable<string> KeysBelow(IConfiguration configuration, string section) =>
        configuration.GetSection(section).GetChildren().Select(child => child.Path);
}
