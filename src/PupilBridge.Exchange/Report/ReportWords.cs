using System.Globalization;
using PupilBridge.Clinic.Text;

namespace PupilBridge.Exchange.Report;

/// <summary>The words of reports, and how values are written in them.</summary>
internal static class ReportWords
{
    /// <summary>The resource file.</summary>
    public static HouseText Text { get; } = new(typeof(ReportWords), "PupilBridge.Exchange.Text.Report");

    /// <summary>The word for one of a closed set of words of a record. One that is not known here stands as it is.</summary>
    /// <param name="group">What stands before the point in the key.</param>
    /// <param name="word">The word of the record; null for none.</param>
    public static string Of(string group, string? word) => word is null ? Text["None"] : Text.Of(group, word);

    /// <summary>A moment by the clinic's clock, with how far that is from UTC, so that paper from elsewhere cannot be misread.</summary>
    /// <param name="at">The moment.</param>
    /// <param name="zone">The clinic's time zone.</param>
    public static string Moment(DateTimeOffset at, TimeZoneInfo zone) =>
        TimeZoneInfo.ConvertTime(at, zone).ToString("yyyy-MM-dd HH:mm:ss zzz", CultureInfo.InvariantCulture);

    /// <summary>The time of day of a moment, by the clinic's clock.</summary>
    /// <param name="at">The moment.</param>
    /// <param name="zone">The clinic's time zone.</param>
    public static string TimeOfDay(DateTimeOffset at, TimeZoneInfo zone) =>
        TimeZoneInfo.ConvertTime(at, zone).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>A moment as a record writes it.</summary>
    /// <param name="text">ISO 8601 in UTC.</param>
    public static DateTimeOffset Read(string text) =>
        DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);

    /// <summary>A length in millimetres, to a hundredth, without its unit.</summary>
    /// <param name="micrometres">The length, in µm.</param>
    public static string Millimetres(int micrometres) =>
        Math.Round(micrometres / 1000m, 2, MidpointRounding.AwayFromZero)
            .ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>A whole number.</summary>
    /// <param name="number">The number.</param>
    public static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);
}
