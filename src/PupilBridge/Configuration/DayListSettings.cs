using System.Globalization;
using Microsoft.Extensions.Configuration;
using PupilBridge.Clinic.DayLists;

namespace PupilBridge.Configuration;

/// <summary>The settings about the day's lists.</summary>
internal static class DayListSettings
{
    private const string Folder = "DayLists:Folder";
    private const string EverySeconds = "DayLists:EverySeconds";

    private static readonly (string Key, DayListColumn Column)[] Headings =
    [
        .. Enum.GetValues<DayListColumn>().Select(column => ($"DayLists:{column}Headings", column)),
    ];

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            Folder,
            "a folder that is watched for CSV files with a day's list of patients",
            "",
            "the path of a folder",
            _ => true
        ),
        new(
            EverySeconds,
            "how often that folder is looked at, in seconds",
            "5",
            "a whole number from 1 to 3600",
            value => Number(value) is >= 1 and <= 3600
        ),
        .. Headings.Select(heading => new HouseSetting(
            heading.Key,
            $"more headings for the column '{DayListHeadings.NameOf(heading.Column)}' of a day's list, besides plain English",
            "",
            "words with commas between them",
            _ => true
        )),
    ];

    /// <summary>The folder that is watched, by checked settings; null for none.</summary>
    /// <param name="configuration">The settings.</param>
    public static DayListWatchOptions? Watched(IConfiguration configuration)
    {
        if (configuration[Folder] is not { Length: > 0 } folder)
        {
            return null;
        }

        var usual = new DayListWatchOptions { Folder = folder };
        return Number(configuration[EverySeconds]) is { } seconds
            ? usual with
            {
                Every = TimeSpan.FromSeconds(seconds),
            }
            : usual;
    }

    /// <summary>By which words columns are recognised.</summary>
    /// <param name="configuration">The settings.</param>
    public static DayListHeadings HeadingsOf(IConfiguration configuration) =>
        new(
            Headings.SelectMany(heading =>
                (configuration[heading.Key] ?? "")
                    .Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
                    .Select(word => KeyValuePair.Create(heading.Column, word))
            )
        );

    private static int? Number(string? value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
