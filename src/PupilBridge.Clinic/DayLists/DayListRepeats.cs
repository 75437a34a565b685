using PupilBridge.Clinic.Desk;

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
                        $"Patient {again.Patient} stands in line {twice.Line} already.",
                        "Leave one of the lines out."
                    );
                }
            }
        }

        foreach (var day in rows.GroupBy(row => row.Day).Where(day => day.Count() > DayListLimits.MaxPatients))
        {
            yield return new DayListFault(
                null,
                null,
                $"The list of {day.Key:yyyy-MM-dd} has {day.Count()} patients; at most {DayListLimits.MaxPatients} are possible.",
                "Check whether it is the right file."
            );
        }
    }

    private static DayListFault? Unlike(DayListRow first, DayListRow again) =>
        Identity.Differs(new Identity(first.Name, first.BirthDate), new Identity(again.Name, again.BirthDate))
            ? new DayListFault(
                again.Line,
                DayListColumn.Patient,
                $"Number {again.Patient} is {new Identity(again.Name, again.BirthDate)} here, and "
                    + $"{new Identity(first.Name, first.BirthDate)} in line {first.Line}. Entered twice?",
                "Give each person a number of their own, or correct name or birth date in one of the lines."
            )
            : null;
}
