using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Views;

namespace PupilBridge.Clinic.DayLists;

/// <summary>The list of one day, with what became of each patient so far.</summary>
internal static class DayListViews
{
    /// <summary>The list; empty if none was given for that day.</summary>
    public static DayListView Of(IClinicHouse house, DateOnly day, TimeZoneInfo zone) => new(day, []);
}
