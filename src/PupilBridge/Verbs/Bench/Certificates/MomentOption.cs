using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic;
using PupilBridge.CommandLine;

namespace PupilBridge.Verbs.Bench.Certificates;

/// <summary>An option that takes a day by this machine's calendar, or a moment as ISO 8601 writes it.</summary>
internal static class MomentOption
{
    /// <summary>Makes the option.</summary>
    /// <param name="name">Its name with dashes.</param>
    /// <param name="description">What it means.</param>
    public static Option<string?> New(string name, string description)
    {
        var option = new Option<string?>(name) { Description = description, HelpName = "DAY" };
        option.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && Read(token.Value, TimeZoneInfo.Utc) is null)
            {
                result.AddError($"{name}: '{token.Value}' is no day (YYYY-MM-DD) and no moment (YYYY-MM-DDThh:mmZ).");
            }
        });
        return option;
    }

    /// <summary>The moment that an option names.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="option">The option.</param>
    /// <returns>For a day its beginning; null where none was given.</returns>
    public static DateTimeOffset? Moment(this Call call, Option<string?> option) =>
        call.Get(option) is { } text ? Read(text, call.Time.LocalTimeZone) : null;

    private static DateTimeOffset? Read(string text, TimeZoneInfo zone)
    {
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return ClinicDay.Begin(day, zone);
        }

        return
            text.Contains('T', StringComparison.Ordinal)
            && DateTimeOffset.TryParse(
                text,
                CultureInfo.InvariantCulture,
                DateTimeStyles.AssumeUniversal,
                out var moment
            )
            ? moment
            : null;
    }
}
