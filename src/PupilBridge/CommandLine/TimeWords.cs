using System.Globalization;

namespace PupilBridge.CommandLine;

/// <summary>How times are written for people. JSON always has UTC.</summary>
internal static class TimeWords
{
    /// <summary>A moment by this machine's clock on the wall.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="time">The moment.</param>
    /// <returns>For example <c>2026-03-02 09:14:05</c>.</returns>
    public static string LocalTime(this Call call, DateTimeOffset time) =>
        TimeZoneInfo
            .ConvertTime(time, call.Time.LocalTimeZone)
            .ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
}
