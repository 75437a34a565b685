using System.Globalization;
using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Tables.Columns;

/// <summary>How old a patient was at an exam.</summary>
internal static class Ages
{
    /// <summary>The day on which an exam opened, by UTC.</summary>
    public static DateOnly DayOf(OutgoingRecord exam) =>
        DateOnly.ParseExact(exam.Record.Opened.At.AsSpan(0, 10), "yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Completed years; null if the date of birth is not known or is later than the exam.</summary>
    public static int? Of(OutgoingRecord exam)
    {
        if (exam.Patient?.BirthDate is not { } born)
        {
            return null;
        }

        var day = DayOf(exam);
        if (born > day)
        {
            return null;
        }

        // Born on 29 February: a year is completed on 1 March where there is no such day.
        var hadBirthday = (day.Month, day.Day).CompareTo((born.Month, born.Day)) >= 0;
        return day.Year - born.Year - (hadBirthday ? 0 : 1);
    }
}
