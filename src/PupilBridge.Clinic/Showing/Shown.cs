using System.Globalization;
using System.Text.Json;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Clinic.Showing;

/// <summary>Single values as they are shown.</summary>
internal static class Shown
{
    /// <summary>A value's name in lower case with hyphens, such as <c>too-short</c>. Others read it: the name is part of the contract.</summary>
    public static string Word<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    /// <summary>A day: year-month-day.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A moment in UTC.</summary>
    public static DateTimeOffset Time(UtcTime time) => time.ToDateTimeOffset();
}
