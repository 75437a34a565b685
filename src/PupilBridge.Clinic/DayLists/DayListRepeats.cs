using PupilBridge.Clinic.Desk;
using PupilBridge.Clinic.Text;
using PupilBridge.Worker.Projection;

namespace PupilBridge.Clinic.DayLists;

/// <summary>What is wrong with lines beside each other, though each alone is right.</summary>
internal static class DayListRepeats
{
    /// <summary>Patients listed twice for one day, numbers with two identities, and days with too many patients.</summary>
    public static IEnumerable<DayListFault> Of(IReadOnlyList<DayListRow> rows)
    {
        var byNumber = rows.GroupBy(row => row.Patient, StringComparer.Ordinal).Where(same => same.Count() > 1);
        foreach (var same in byNumber)
        {
            var first = same.First();
            foreach (var again in same.Skip(1))
            {
                if (Unlike(first, again) is { } unlike)
                {
                    yield return unlike;
                }
                else if (same.TakeWhile(row => row != again).FirstOrDefault(row => row.Day == again.Day) is { } twice)
                {
                    yield return new DayListFault(
                        again.Line,
                        DayListColumn.Patient,
                        ClinicText.DayLists.Get("Fault.Twice", again.Patient, twice.Line)
                    );
                }
            }
        }

        foreach (var day in rows.GroupBy(row => row.Day).Where(day => day.Count() > DayListLimits.MaxPatients))
        {
            yield return new DayListFault(
                null,
                null,
                ClinicText.DayLists.Get(
                    "Fault.TooMany",
                    ExamDocuments.KeyOf(day.Key),
                    day.Count(),
                    DayListLimits.MaxPatients
                )
            );
        }
    }

    private static DayListFault? Unlike(DayListRow first, DayListRow again) =>
        Identity.Differs(new Identity(first.Name, first.BirthDate), new Identity(again.Name, again.BirthDate))
            ? new DayListFault(
                again.Line,
                DayListColumn.Patient,
                ClinicText.DayLists.Get(
                    "Fault.TwoPersons",
                    again.Patient,
                    new Identity(again.Name, again.BirthDate),
                    new Identity(first.Name, first.BirthDate),
                    first.Line
                )
            )
            : null;
}
