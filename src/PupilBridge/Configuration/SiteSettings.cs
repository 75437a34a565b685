using Microsoft.Extensions.Configuration;
using PupilBridge.Exams.Criteria;
using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Configuration;

/// <summary>
/// The settings about the light of the site, as measured where patients look: its luminance, and how much of the view it fills. Lux alone
/// does not give them, and without them no size is held beside an expected one.
/// </summary>
internal static class SiteSettings
{
    private const string EyesKey = "Site:EyesThatSeeIt";

    private static readonly string[] Lights = ["Bright", "Dim"];

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        .. Lights.SelectMany(light =>
            new HouseSetting[]
            {
                new(
                    Luminance(light),
                    $"the luminance that patients look at in {light.ToLowerInvariant()} room light, as measured, in cd/m²",
                    "",
                    "a number from 0.0001 to 10000",
                    value => SettingNumber.Read(value) is >= 0.0001m and <= 10_000m
                ),
                new(
                    Area(light),
                    $"how much of the view that luminance fills in {light.ToLowerInvariant()} room light, in square degrees",
                    "",
                    "a number from 0.1 to 41252",
                    value => SettingNumber.Read(value) is >= 0.1m and <= 41_252m
                ),
            }
        ),
        new(
            EyesKey,
            "how many eyes see it: 1 where the instrument covers the other one",
            "2",
            "1 or 2",
            value => value is "1" or "2"
        ),
    ];

    /// <summary>What is wrong between settings that are each allowed.</summary>
    /// <param name="configuration">The settings.</param>
    /// <returns>Keys and messages.</returns>
    public static IEnumerable<(string Key, string Message)> Faults(IConfiguration configuration) =>
        Lights
            .SelectMany(light => new[] { (Luminance(light), Area(light)), (Area(light), Luminance(light)) })
            .Where(pair =>
                !string.IsNullOrEmpty(configuration[pair.Item1]) && string.IsNullOrEmpty(configuration[pair.Item2])
            )
            .Select(pair =>
                (pair.Item1, $"{pair.Item1} says nothing without {pair.Item2}; measure and set both, or none.")
            );

    /// <summary>What is known of the site, by checked settings.</summary>
    /// <param name="configuration">The settings.</param>
    public static SiteFacts Read(IConfiguration configuration) =>
        new() { Bright = Field(configuration, "Bright"), Dim = Field(configuration, "Dim") };

    private static AdaptingField? Field(IConfiguration configuration, string light) =>
        SettingNumber.Read(configuration[Luminance(light)]) is { } luminance
        && SettingNumber.Read(configuration[Area(light)]) is { } area
            ? new((double)luminance, (double)area, configuration[EyesKey] == "1" ? 1 : 2)
            : null;

    private static string Luminance(string light) => $"Site:{light}CandelasPerSquareMetre";

    private static string Area(string light) => $"Site:{light}SquareDegrees";
}
