using System.Globalization;
using System.Text;
using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.Text;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Values;

namespace PupilBridge.Clinic.DayLists;

/// <summary>The patients of a day between the desk and the journal.</summary>
internal static class DayListItems
{
    /// <summary>The most bytes that a list may have, so that it fits into one entry of the journal.</summary>
    private const int MostBytes = 60_000;

    /// <summary>What the journal keeps of the lines.</summary>
    /// <exception cref="EntryProblemException">A line is wrong, a patient stands there twice, or there are too many.</exception>
    public static ValueList<DayListItem> Of(IReadOnlyList<DayListLine>? lines)
    {
        if (lines is null or { Count: 0 })
        {
            throw new EntryProblemException(ClinicText.DayLists["List.Nobody"]);
        }

        ValueList<DayListItem> items = [.. lines.Select(Of)];
        var twice = items.GroupBy(item => item.Patient).FirstOrDefault(same => same.Count() > 1);
        if (twice is not null)
        {
            throw new EntryProblemException(ClinicText.DayLists.Get("List.Twice", twice.Key));
        }

        return
            items.Count > DayListLimits.MaxPatients
            || items.Sum(item => Encoding.UTF8.GetByteCount(item.Patient.Value) + 8) > MostBytes
            ? throw new EntryProblemException(
                ClinicText.DayLists.Get("List.TooLong", items.Count, DayListLimits.MaxPatients)
            )
            : items;
    }

    /// <summary>When a patient is expected, <c>HH:mm</c>; null if it was not said.</summary>
    public static string? TimeOf(DayListItem item) =>
        item.MinuteOfDay is { } minute
            ? TimeOnly.FromTimeSpan(TimeSpan.FromMinutes(minute)).ToString("HH:mm", CultureInfo.InvariantCulture)
            : null;

    private static DayListItem Of(DayListLine line) =>
        new() { Patient = Given.Patient(line.Patient), MinuteOfDay = line.Time is null ? null : Minute(line.Time) };

    private static int Minute(string time) =>
        TimeOnly.TryParseExact(time, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var read)
            ? (int)read.ToTimeSpan().TotalMinutes
            : throw new EntryProblemException(ClinicText.DayLists.Get("List.NoTime", time));
}
