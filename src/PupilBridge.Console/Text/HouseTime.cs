using System.Globalization;
using PupilBridge.Clinic;

namespace PupilBridge.Console.Text;

/// <summary>Times as pages show them: by the clinic's clock, in an order that no country reads otherwise.</summary>
/// <param name="time">The clock; its local zone is the clinic's.</param>
public sealed class HouseTime(TimeProvider time)
{
    /// <summary>Today.</summary>
    public DateOnly Today => DateOnly.FromDateTime(time.GetLocalNow().DateTime);

    /// <summary>Now, in UTC.</summary>
    public DateTimeOffset Now => time.GetUtcNow();

    /// <summary>A moment to the minute.</summary>
    public string Minute(DateTimeOffset at) => Local(at).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A moment to the second.</summary>
    public string Exact(DateTimeOffset at) => Local(at).ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>A moment of a day that is known, to the second.</summary>
    public string Second(DateTimeOffset at) => Local(at).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>A day.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>When a day of the clinic begins.</summary>
    public DateTimeOffset Begin(DateOnly day) => ClinicDay.Begin(day, time.LocalTimeZone);

    /// <summary>Reads a day as forms and addresses write it.</summary>
    /// <param name="text">Such as <c>2026-11-25</c>.</param>
    /// <returns>Null if it is none.</returns>
    public static DateOnly? Read(string? text) =>
        DateOnly.TryParseExact(
            text?.Trim(),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
            : null;

    /// <summary>A moment by the clinic's clock.</summary>
    public DateTimeOffset Local(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, time.LocalTimeZone);
}
