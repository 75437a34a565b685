using System.Globalization;
using Microsoft.Extensions.Configuration;

namespace PupilBridge.Configuration;

/// <summary>How long the clinic keeps what identifies patients. Nothing is erased by it: it only says who is due.</summary>
internal static class RetentionOptions
{
    /// <summary>The most years that can be set or asked for.</summary>
    public const int MostYears = 200;

    private const string Years = "Retention:Years";

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            Years,
            "how many years after the last visit a patient is due to be erased; empty: nobody is, and nothing is ever erased by itself",
            "",
            string.Create(CultureInfo.InvariantCulture, $"empty, or a whole number from 1 to {MostYears}"),
            value => string.IsNullOrEmpty(value) || Number(value) is >= 1 and <= MostYears
        ),
    ];

    /// <summary>How many years; null where none are set.</summary>
    public static int? YearsOf(IConfiguration configuration) => Number(configuration[Years]);

    private static int? Number(string? value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var years) ? years : null;
}
