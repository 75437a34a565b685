namespace PupilBridge.Clinic;

/// <summary>Days by the clinic's calendar.</summary>
public static class ClinicDay
{
    /// <summary>When a day begins: at midnight by the clinic's clock on the wall.</summary>
    /// <param name="day">The day.</param>
    /// <param name="zone">The clinic's time zone.</param>
    public static DateTimeOffset Begin(DateOnly day, TimeZoneInfo zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var midnight = day.ToDateTime(TimeOnly.MinValue);
        return new DateTimeOffset(midnight, zone.GetUtcOffset(midnight));
    }
}
