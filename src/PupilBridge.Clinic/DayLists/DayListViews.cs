using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Merging;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Views;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.DayLists;

/// <summary>The list of one day, with what became of each patient so far.</summary>
internal static class DayListViews
{
    /// <summary>The list; empty if none was given for that day.</summary>
    /// <param name="house">The house.</param>
    /// <param name="day">The day, by the clinic's calendar.</param>
    /// <param name="zone">The clinic's time zone: an exam belongs to the day on which it opened there.</param>
    public static DayListView Of(IClinicHouse house, DateOnly day, TimeZoneInfo zone)
    {
        if (house.FindDayList(day) is not { } list)
        {
            return new DayListView(day, []);
        }

        var exams = ExamsOf(house, ClinicDay.Begin(day, zone), ClinicDay.Begin(day.AddDays(1), zone));
        return new DayListView(
            day,
            [
                .. list.Items.Select(item => new DayListItemView(
                    PatientViews.Of(house, item.Patient),
                    DayListItems.TimeOf(item),
                    exams.GetValueOrDefault(PersonBehind.Surviving(house, item.Patient))
                )),
            ]
        );
    }

    /// <summary>The latest exam of each person within a time; one that was set aside only where there is no other.</summary>
    private static Dictionary<PatientId, ExamSummary> ExamsOf(
        IClinicHouse house,
        DateTimeOffset from,
        DateTimeOffset to
    )
    {
        var exams = new Dictionary<PatientId, ExamSummary>();
        var aside = ExamDocuments.WordOf(ExamStatus.SetAside);
        var request = new ExamListRequest
        {
            OpenedFrom = from,
            OpenedBefore = to,
            Limit = ExamQuery.MaxLimit,
        };
        for (string? after = null; ; )
        {
            var page = ExamListing.Of(house, request with { After = after });
            foreach (var exam in page.Exams.Where(exam => exam.Patient is not null))
            {
                var person = PersonBehind.Surviving(house, new PatientId(exam.Patient!));
                if (!exams.TryGetValue(person, out var before) || (before.Status == aside && exam.Status != aside))
                {
                    exams[person] = exam;
                }
            }

            after = page.Next;
            if (after is null)
            {
                return exams;
            }
        }
    }
}
